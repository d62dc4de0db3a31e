import { readFile } from 'node:fs/promises';
import type { Page } from '@playwright/test';
import Papa from 'papaparse';
import { expect, test } from './support/fixture.ts';
import { waitReady } from './support/site.ts';
import { upliftFile, type ExpectedUplift } from './support/uplift-file.ts';

const first = upliftFile(600);

/** The same facts in another sender's hand: tabs, decimal commas, day first, date and clock apart, kg/L. */
function otherLayout(): { name: string; text: string; good: readonly ExpectedUplift[] } {
  const { text, good } = upliftFile(300);
  const rows = Papa.parse<Record<string, string>>(text, {
    header: true,
    delimiter: ';',
    skipEmptyLines: true
  }).data;
  const comma = (value: number | string) => String(value).replace('.', ',');
  const kept = rows.filter((row) => good.some(({ ticket }) => ticket === row['Ticket']));
  const lines = kept.map((row) => {
    const time = row['End of fuelling (UTC)'] ?? '';
    const [year, month, day] = time.slice(0, 10).split('-');
    return [
      `B${row['Ticket'] ?? ''}`,
      `${day}.${month}.${Number(year) + 1}`,
      time.slice(11, 16),
      row['Station'],
      row['Tail'],
      row['Volume (L)'],
      comma((Number(row['Observed density (kg/m3)']) / 1000).toFixed(4)),
      comma(row['Sample temperature (C)'] ?? ''),
      comma(row['Fuel temperature (C)'] ?? ''),
      row['Arrival fuel (kg)'],
      row['Departure fuel (kg)'],
      row['Ground burn (kg)']
    ].join('\t');
  });
  const header =
    'Ticket\tDate (UTC)\tTime (UTC)\tStation\tTail\tVolume (L)\tObserved density (kg/L)\tSample temperature (°C)\tFuel temperature (°C)\tArrival fuel (kg)\tDeparture fuel (kg)\tGround burn (kg)';
  return {
    name: 'other-sender.tsv',
    text: `${[header, ...lines].join('\n')}\n`,
    good: good.map((uplift) => ({ ...uplift, ticket: `B${uplift.ticket}` }))
  };
}

async function importBoth(page: Page): Promise<ExpectedUplift[]> {
  const other = otherLayout();
  await page.goto('files/');
  await page.setInputFiles('input[type=file]', [
    { name: first.name, mimeType: 'text/csv', buffer: Buffer.from(first.text) },
    { name: other.name, mimeType: 'text/tab-separated-values', buffer: Buffer.from(other.text) }
  ]);
  await page.getByRole('button', { name: 'Use all files' }).click();
  await waitReady(page);
  return [...first.good, ...other.good];
}

test('two layouts, one filter: from the station to the line, out as a file, back by link and Back', async ({
  page,
  browser,
  baseURL
}) => {
  const all = await importBoth(page);
  const here = all.filter(({ station }) => station === 'JBEL');

  // A station chosen by its mark narrows everything, in words.
  await page.goto('stations/');
  await page.getByRole('figure', { name: 'Rate outside limits' }).locator('[data-key="JBEL"]').click();
  await expect(page.getByRole('group', { name: 'Filter' })).toContainText('JBEL');
  await expect(page.getByRole('group', { name: 'Filter' })).toContainText(
    `${here.length} of ${all.length} records`
  );

  // Its records, exactly those, each against the test's own computation.
  await page.getByRole('link', { name: 'Records' }).click();
  const downloading = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Export records' }).click();
  const text = await readFile(await (await downloading).path(), 'utf8');
  const rows = Papa.parse<Record<string, string>>(text, { header: true, skipEmptyLines: true }).data;
  expect(rows.map((row) => row['ticket']).sort()).toEqual(here.map(({ ticket }) => ticket).sort());
  for (const row of rows) {
    const expected = here.find(({ ticket }) => ticket === row['ticket']);
    expect(Number(row['discrepancy_kg'])).toBeCloseTo(expected?.discrepancyKg ?? NaN, 2);
    expect(row['station']).toBe('JBEL');
  }

  // A record and its line.
  await page
    .getByRole('grid')
    .getByText(here[0]?.ticket ?? '', { exact: true })
    .click();
  await expect(page.getByRole('heading', { level: 1 })).toContainText('JBEL');
  const sheetUrl = page.url();
  await page.getByRole('button', { name: 'Show the line' }).click();
  await expect(page.locator('.raw')).toContainText(here[0]?.ticket ?? '');

  // Back retraces; the address never holds a file name or ticket.
  expect(sheetUrl).not.toContain(first.name);
  expect(new URL(sheetUrl).search).toBe('');
  await page.goBack();
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('Records');
  await expect(page.getByRole('group', { name: 'Filter' })).toContainText('JBEL');

  // The link in a fresh browser with the same files gives the same records; without them it says so.
  const link = page.url();
  const elsewhere = await browser.newContext(baseURL === undefined ? {} : { baseURL });
  const other = await elsewhere.newPage();
  await other.goto(link);
  await expect(other.getByRole('main')).toContainText('No files yet');
  await importBoth(other);
  await other.goto(link);
  await expect(other.getByRole('group', { name: 'Filter' })).toContainText(
    `${here.length} of ${all.length} records`
  );
  await elsewhere.close();
});

test('from the empty page to the export with the keyboard alone', async ({ page }) => {
  /** Presses Tab until the focus is on what is wanted: everything must be reachable. */
  async function tabTo(name: RegExp, most = 80): Promise<void> {
    for (let i = 0; i < most; i++) {
      await page.keyboard.press('Tab');
      const label = await page.evaluate(
        () => document.activeElement?.getAttribute('aria-label') ?? document.activeElement?.textContent ?? ''
      );
      if (name.test(label.trim())) return;
    }
    throw new Error(`focus: never on ${name.source}`);
  }
  await page.goto('files/');
  await page.locator('main[data-state=empty]').waitFor();
  const choosing = page.waitForEvent('filechooser');
  for (let i = 0; i < 40; i++) {
    await page.keyboard.press('Tab');
    if (await page.locator('input[type=file]:focus').count()) break;
  }
  await page.keyboard.press('Enter');
  await (
    await choosing
  ).setFiles({ name: first.name, mimeType: 'text/csv', buffer: Buffer.from(first.text) });
  await page.locator('main[data-state=asking]').waitFor();
  await page.locator('h1').evaluate((heading) => {
    heading.setAttribute('tabindex', '-1');
    heading.focus();
  });
  await tabTo(/^Use this file$/);
  await page.keyboard.press('Enter');
  await waitReady(page);

  await page.locator('header a').first().focus();
  await tabTo(/^Stations$/);
  await page.keyboard.press('Enter');
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('Stations');
  const rates = page.getByRole('figure', { name: 'Rate outside limits' });
  const chart = rates.locator('[tabindex="0"]').first();
  await chart.focus();
  await page.keyboard.press('ArrowRight');
  await page.keyboard.press('t');
  await expect(rates.getByRole('table')).toBeVisible();
  await chart.focus();
  await page.keyboard.press('Home');
  await page.keyboard.press('Enter');
  await expect(page.getByRole('group', { name: 'Filter' })).toContainText('JARV');

  await page.locator('header a').first().focus();
  await tabTo(/^Records$/);
  await page.keyboard.press('Enter');
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('Records');
  await tabTo(/^Export records/);
  const downloading = page.waitForEvent('download');
  await page.keyboard.press('Enter');
  const text = await readFile(await (await downloading).path(), 'utf8');
  const expected = first.good.filter(({ station }) => station === 'JARV').length;
  expect(Papa.parse(text, { skipEmptyLines: true }).data).toHaveLength(expected + 1);
});
