import { readFile } from 'node:fs/promises';
import type { Download, Page } from '@playwright/test';
import Papa from 'papaparse';
import { expect, test } from './support/fixture.ts';
import { waitReady } from './support/site.ts';
import { upliftFile } from './support/uplift-file.ts';

const file = upliftFile();

async function take(page: Page, name: string, text: string): Promise<void> {
  await page.goto('/files/');
  await page.setInputFiles('input[type=file]', { name, mimeType: 'text/csv', buffer: Buffer.from(text) });
  await page.getByRole('button', { name: 'Use this file' }).click();
  await waitReady(page);
}

async function textOf(download: Download): Promise<string> {
  return readFile(await download.path(), 'utf8');
}

async function exported(page: Page): Promise<{ text: string; rows: Record<string, string>[] }> {
  await page.goto('/records/');
  const downloading = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Export records' }).click();
  const text = await textOf(await downloading);
  const { data, errors } = Papa.parse<Record<string, string>>(text, { header: true, skipEmptyLines: true });
  expect(errors).toEqual([]);
  return { text, rows: data };
}

test('a real file becomes correct numbers, an export that reads back, and is there after a reload', async ({
  page,
  browser
}) => {
  await take(page, file.name, file.text);

  // Every record read has a fate, and they add up.
  const balance = page.getByRole('article', { name: file.name }).locator('.balance');
  await expect(balance).toContainText(
    `${file.good.length + file.refused + 1} records`.replace(/\B(?=(\d{3})+\b)/g, '\u2009')
  );
  await expect(balance).toContainText(`${file.refused} refused`);

  // Refused records say line, column, value and reason.
  const downloading = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Download account' }).click();
  const account = JSON.parse(await textOf(await downloading)) as {
    counts: Record<string, number>;
    records: { line: number; fate: string; code: string; value: string | null; words: string }[];
  };
  const { counts } = account;
  expect(counts['records']).toBe(
    ['header', 'used', 'setAside', 'refused', 'skipped'].reduce((sum, fate) => sum + (counts[fate] ?? 0), 0)
  );
  expect(counts['used']).toBe(file.good.length);
  const badNumber = account.records.find(({ code }) => code === 'badNumber');
  expect(badNumber?.value).toBe('12x00');
  const lines = file.text.split(/\r\n|\n/);
  expect(lines[(badNumber?.line ?? 0) - 1]).toContain('12x00');

  // Totals per station against the test's own computation.
  await page.goto('/stations/');
  await page
    .getByRole('figure')
    .filter({ hasText: 'Rate outside limits' })
    .first()
    .getByRole('button', { name: 'Show table' })
    .click();
  for (const station of new Set(file.good.map((uplift) => uplift.station))) {
    const here = file.good.filter((uplift) => uplift.station === station);
    const row = page.getByRole('row').filter({ hasText: station }).first();
    await expect(row).toContainText(String(here.filter((uplift) => uplift.isOutside).length));
    await expect(row).toContainText(String(here.length));
  }

  // The export, row by row.
  const { text, rows } = await exported(page);
  expect(rows).toHaveLength(file.good.length);
  for (const [index, expected] of file.good.entries()) {
    const row = rows[index] ?? {};
    expect(row['ticket']).toBe(expected.ticket);
    expect(Number(row['metered_mass_kg'])).toBeCloseTo(expected.meteredMassKg, 2);
    expect(Number(row['discrepancy_kg'])).toBeCloseTo(expected.discrepancyKg, 2);
    expect(row['verdict']).toBe(expected.isOutside ? 'outside limits' : 'within limits');
  }

  // One record's worked sheet, reached from the grid, with its line as it stands in the file.
  const first = file.good[0];
  await page
    .getByText(first?.ticket ?? '', { exact: true })
    .first()
    .dblclick();
  await page
    .getByText(first?.ticket ?? '', { exact: true })
    .first()
    .press('Enter');
  await expect(page.getByRole('heading', { level: 1 })).toContainText(first?.tail ?? '');
  await expect(page.locator('.sum')).toContainText('by gauge');
  await page.getByRole('button', { name: 'Show the line' }).click();
  await expect(page.locator('.raw')).toContainText(lines[1] ?? '');

  // Everything is there after a reload.
  await page.goto('/records/');
  await page.reload();
  await waitReady(page);
  expect((await exported(page)).text).toBe(text);

  // The export, taken into an empty workspace, gives every field and every computed column again.
  const other = await browser.newContext();
  const again = await other.newPage();
  await take(again, 'export.csv', text);
  const back = await exported(again);
  const own = new Set(['refuelling', 'source_file', 'source_line', 'source_sha256']);
  const comparable = (list: Record<string, string>[]) =>
    list.map((row) => Object.entries(row).filter(([name]) => !own.has(name)));
  expect(comparable(back.rows)).toEqual(comparable(rows));
  await other.close();
});

test('files that cannot be read say so, and the rest goes on', async ({ page }) => {
  await page.goto('/files/');
  await page.setInputFiles('input[type=file]', [
    { name: 'empty.csv', mimeType: 'text/csv', buffer: Buffer.from('') },
    { name: 'picture.csv', mimeType: 'text/csv', buffer: Buffer.from([0x89, 0x50, 0x4e, 0x47, 0, 1, 2, 3]) },
    { name: 'good.csv', mimeType: 'text/csv', buffer: Buffer.from(upliftFile(20).text) }
  ]);
  await expect(page.getByRole('article', { name: 'empty.csv' })).toContainText('the file is empty');
  await expect(page.getByRole('article', { name: 'picture.csv' })).toContainText('the file is a picture');
  await page.getByRole('button', { name: 'Use this file' }).click();
  await waitReady(page);
  await expect(page.getByRole('article', { name: 'good.csv' })).toContainText('20 used');
});

test('a file without a needed column asks which column it is', async ({ page }) => {
  await page.goto('/files/');
  const text = upliftFile(20).text.replace('Tail;', 'Thing;');
  await page.setInputFiles('input[type=file]', {
    name: 'tailless.csv',
    mimeType: 'text/csv',
    buffer: Buffer.from(text)
  });
  await expect(page.getByRole('group', { name: /^Question:/ }).first()).toBeVisible();
  await expect(page.getByRole('button', { name: 'Use this file' })).toBeDisabled();
});
