import { expect, test } from './support/fixture.ts';
import { axeScan } from './support/axe.ts';
import { builtPages, waitReady } from './support/site.ts';

/**
 * Text inside a drawing lies over the drawing itself, where axe cannot tell the ground. The inks are measured against
 * the page in test/lib/ui/palette.test.ts instead.
 */
const explained = {
  'color-contrast': 'text inside an SVG: inks are measured against the page by a test of their own'
};

test('the demo opens with one click, accounts for every record and is gone with one click', async ({
  page
}) => {
  test.setTimeout(300_000);
  // From the page with the dearest answers, which once kept the files from being read.
  await page.goto('');
  await page.getByRole('button', { name: 'Open the demo' }).click();
  await waitReady(page);
  await page.getByRole('link', { name: 'Source files' }).click();
  await expect(page.getByRole('article')).toHaveCount(19, { timeout: 60_000 });
  await waitReady(page);

  // Story 16: one month arrives twice and is counted once; every other file adds up.
  await expect(page.getByRole('article').filter({ hasText: 'counted once' })).toHaveCount(1);
  for (const balance of await page.locator('.balance').allTextContents()) {
    const [records = NaN, , header = NaN, used = NaN, aside = NaN, refused = NaN, skipped = NaN] = (
      balance.replaceAll('\u2009', '').match(/\d+/g) ?? []
    ).map(Number);
    expect(header + used + aside + refused + skipped).toBe(records);
  }

  // axe on every page with records on it, in both themes.
  for (const scheme of ['light', 'dark'] as const) {
    await page.emulateMedia({ colorScheme: scheme });
    for (const path of builtPages()) {
      await page.goto(path);
      await waitReady(page);
      await expect(page.getByRole('heading', { level: 1 })).toBeVisible();
      await axeScan(page, explained);
    }
  }

  // Nothing but tables scrolls sideways on a phone.
  await page.setViewportSize({ width: 390, height: 844 });
  for (const path of builtPages()) {
    await page.goto(path);
    await waitReady(page);
    const { wide, view } = await page.evaluate(() => ({
      wide: document.documentElement.scrollWidth,
      view: innerWidth
    }));
    expect(wide, `${path} on a phone`).toBeLessThanOrEqual(view);
  }

  await page.goto('files/');
  await page.getByRole('button', { name: 'Close the demo' }).click();
  await page.locator('main[data-state=empty]').waitFor();
});

test('the demo asks sixteen questions, leads to where they are answered, and tells what was planted', async ({
  page
}) => {
  test.setTimeout(90_000);
  await page.goto('');
  await page.getByRole('button', { name: 'Open the demo' }).click();
  await expect(page.locator('main[data-state="ready"]')).toBeVisible({ timeout: 60_000 });
  await page.getByRole('link', { name: 'sixteen questions' }).click();
  await expect(page.getByRole('listitem').filter({ has: page.getByRole('heading') })).toHaveCount(16);
  const drift = page.getByRole('listitem').filter({ hasText: 'Which gauge drifts, and since when?' });
  await expect(drift.getByText('Q7-KEB')).toBeHidden();
  await drift.getByText('What was planted').click();
  await expect(drift.getByText('Q7-KEB')).toBeVisible();
  await drift.getByText('Where to look').click();
  await drift.getByRole('link', { name: 'Trend' }).click();
  await expect(page.getByRole('heading', { level: 1 })).toContainText('Trend');
  await expect(page.getByText('Q7-KEB').first()).toBeVisible();
});
