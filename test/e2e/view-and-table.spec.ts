import { readFile } from 'node:fs/promises';
import type { Page } from '@playwright/test';
import Papa from 'papaparse';
import { expect, test } from './support/fixture.ts';
import { importFiles, waitReady } from './support/site.ts';
import { upliftFile } from './support/uplift-file.ts';

type Cells = Record<string, string>;

/** What a button saves, read by another program's CSV reader. */
async function saved(page: Page, press: () => Promise<void>): Promise<Cells[]> {
  const downloading = page.waitForEvent('download');
  await press();
  const text = await readFile(await (await downloading).path(), 'utf8');
  return Papa.parse<Cells>(text, { header: true, skipEmptyLines: true }).data;
}

const filters = [
  ['all records', ''],
  ['one station', '#station=JBEL'],
  ['two tails of one month', '#tail=Q7-KEA,Q7-KEC&from=2031-01-01&until=2031-01-31'],
  ['what is outside limits', '#verdicts=outside'],
  ['nothing', '#station=NONE']
] as const;

const file = upliftFile(300);

test('the chart, its table, the export and the stub are of the same records under any filter', async ({
  page
}) => {
  await importFiles(page, [{ name: file.name, mimeType: 'text/csv', buffer: Buffer.from(file.text) }]);
  for (const [what, hash] of filters) {
    await page.goto(`/records/${hash}`);
    await page.reload();
    await waitReady(page);
    const stub = page.getByRole('complementary', { name: 'Stub of this page' });
    if (what === 'nothing') {
      await expect(stub).toContainText('0 of');
      continue;
    }
    const exported = await saved(page, () => page.getByRole('button', { name: 'Export records' }).click());
    expect(exported.length, what).toBeGreaterThan(0);
    await expect(stub).toContainText(`${exported.length} of`);
    await expect(page.getByRole('button', { name: 'Export records' })).toContainText(`(${exported.length})`);

    await page.goto(`/stations/${hash}`);
    await waitReady(page);
    await expect(stub).toContainText(`${exported.length} of`);
    const figure = page.getByRole('figure', { name: 'Rate outside limits' });
    await figure.getByRole('button', { name: 'Show table' }).click();
    const shown = await figure
      .getByRole('row')
      .evaluateAll((rows) =>
        rows.slice(1).map((row) => [...row.children].map((cell) => cell.textContent.trim()))
      );
    const twin = await saved(page, () => figure.getByRole('button', { name: 'Save table' }).click());
    expect(
      shown.map(([group]) => group),
      what
    ).toEqual(twin.map((cells) => cells['Station']));
    const drawn = await figure
      .locator('svg [data-key]')
      .evaluateAll((marks) => [...new Set(marks.map((mark) => mark.getAttribute('data-key')))]);
    expect(drawn.toSorted()).toEqual(twin.map((cells) => cells['Station']).toSorted());
    for (const cells of twin) {
      const here = exported.filter(({ station }) => station === cells['Station']);
      const outside = here.filter(({ verdict }) => verdict === 'outside limits').length;
      const judged = here.filter(({ verdict }) => verdict?.endsWith('limits') === true).length;
      expect([Number(cells['Outside limits']), Number(cells['Judged'])], cells['Station'] ?? '').toEqual([
        outside,
        judged
      ]);
      expect(Number(cells['Rate outside limits (%)'])).toBeCloseTo((100 * outside) / judged, 1);
    }
    const stations = new Set(exported.map(({ station }) => station));
    expect(twin.length, what).toBe(stations.size);
  }
});
