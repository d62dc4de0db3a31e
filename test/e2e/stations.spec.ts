import { readFile } from 'node:fs/promises';
import Papa from 'papaparse';
import { axeScan } from './support/axe.ts';
import { expect, test } from './support/fixture.ts';
import { waitReady } from './support/site.ts';

const explained = {
  'color-contrast': 'text inside an SVG: inks are measured against the page by a test of their own'
};

test('stations: who differs beyond chance, like for like, and from the mark to its records', async ({
  page
}) => {
  test.setTimeout(180_000);
  await page.goto('');
  await page.getByRole('button', { name: 'Open the demo' }).click();
  await waitReady(page);
  await page.getByRole('link', { name: 'Stations' }).click();

  const fair = page.getByRole('figure', { name: /^Like for like/ });
  const plain = page.getByRole('figure', { name: /^Plain rate/ });
  // Planted: at JIVA burn is not written, at JFEN the density is a default. JNER is plainly high, since it serves small uplifts.
  await expect(fair).toContainText(/Above: JIVA/);
  await expect(fair.locator('.note')).not.toContainText('JNER');
  await expect(plain.locator('.note')).toContainText('JNER');

  // Nine uplifts with two outside lead the plain rates and get no verdict.
  await plain.getByRole('button', { name: 'Show table' }).click();
  await expect(plain.getByRole('row', { name: /JHOS/ })).toContainText('too few to say');
  await expect(plain.getByRole('row')).toHaveCount(13);

  // The saved table holds counts, limits and the words.
  const downloading = page.waitForEvent('download');
  await fair.getByRole('button', { name: 'Save table' }).click();
  const text = await readFile(await (await downloading).path(), 'utf8');
  const rows = Papa.parse<Record<string, string>>(text.replace(/^\uFEFF/, ''), {
    header: true,
    skipEmptyLines: true
  }).data;
  expect(rows.length).toBeGreaterThanOrEqual(12);
  expect(text).toContain('above what was to be expected');
  await axeScan(page, explained);

  // By keyboard from the chart to the station.
  await fair.locator('[tabindex="0"]').first().focus();
  await page.keyboard.press('Home');
  await page.keyboard.press('PageDown');
  await expect(fair.locator('.readout')).toContainText('JIVA');
  await page.keyboard.press('Enter');
  await expect(page.getByRole('group', { name: 'Filter' })).toContainText('JIVA');
  // One station alone has nothing to be compared with, and no funnel is drawn of it.
  await expect(page.getByRole('figure', { name: /^Like for like/ })).toHaveCount(0);
});
