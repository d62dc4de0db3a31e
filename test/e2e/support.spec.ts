import { axeScan } from './support/axe.ts';
import { expect, test } from './support/fixture.ts';

// What the other tests rest on must be able to fail.

test('a console error in a page fails its test (here on purpose)', async ({ page }) => {
  test.fail();
  await page.goto('');
  await page.evaluate(() => console.error('made on purpose'));
});

test('an uncaught error in a page is seen', async ({ page, watch }) => {
  await page.goto('');
  await page.evaluate(() => {
    setTimeout(() => {
      throw new Error('made on purpose');
    });
  });
  await expect.poll(() => watch.faults.length).toBe(1);
  expect(watch.take()).toEqual(['uncaught: made on purpose']);
});

test('a request outside the origin is seen, even one that the policy refuses', async ({ page, watch }) => {
  watch.expectMessage(/^console: .*Content Security Policy/);
  await page.goto('');
  await page.evaluate(() => {
    new Image().src = 'http://127.0.0.1:9/made-on-purpose';
  });
  await expect.poll(() => watch.faults.length).toBe(1);
  expect(watch.take()).toEqual(['request outside the origin: http://127.0.0.1:9/made-on-purpose']);
});

test('a message that a test expects does not fail it', async ({ page, watch }) => {
  watch.expectMessage(/^console: made on purpose/);
  await page.goto('');
  await page.evaluate(() => console.error('made on purpose'));
});

test('axe reports an image without a text alternative', async ({ page }) => {
  await page.goto('');
  await page.evaluate(() => document.body.append(new Image(10, 10)));
  await expect(axeScan(page)).rejects.toThrow(/image-alt/);
});

test('axe reports what it could not decide, unless that is explained', async ({ page }) => {
  await page.goto('');
  await page.evaluate(() => {
    const text = document.createElement('p');
    text.textContent = 'Words on a picture';
    text.style.backgroundImage = 'linear-gradient(red, blue)';
    document.body.replaceChildren(text);
    document.title = 'Made on purpose';
  });
  await expect(axeScan(page)).rejects.toThrow(/could not decide/);
  await axeScan(page, { 'color-contrast': 'made on purpose' });
});
