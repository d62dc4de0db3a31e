import type { Page } from '@playwright/test';
import { readFile } from 'node:fs/promises';
import Papa from 'papaparse';
import { axeScan } from './support/axe.ts';
import { expect, test } from './support/fixture.ts';
import { importFiles, waitReady } from './support/site.ts';

/** Text in a drawing lies over the drawing, where axe cannot tell the ground: the inks have a test of their own. */
const explained = { 'color-contrast': 'text inside an SVG, measured in test/lib/ui/palette.test.ts' };

const header =
  'Ticket,End of fuelling (UTC),Station,Tail,Aircraft type,Vehicle,Volume (L),Observed density (kg/m3),Sample temperature (C),Fuel temperature (C),Arrival fuel (kg),Departure fuel (kg),Ground burn (kg)';

/** One aircraft, a refuelling a day: 10,000 L of 800 kg/m3 at 15 °C are 8,000 kg. The gauges are off by what is given. */
function fileOf(discrepancies: readonly number[], slip: { readonly at: number; readonly volume: number }) {
  const lines = discrepancies.map((discrepancyKg, index) =>
    [
      `T${String(index).padStart(4, '0')}`,
      `2031-05-${String(1 + index).padStart(2, '0')}T10:00:00Z`,
      'JARV',
      'Q7-KEA',
      'AV150',
      'JARV-H201',
      index === slip.at ? slip.volume : 10_000,
      '800.0',
      '15.0',
      '15.0',
      2_000,
      10_000 + discrepancyKg,
      0
    ].join(',')
  );
  return {
    name: 'planted.csv',
    mimeType: 'text/csv',
    buffer: Buffer.from(`${[header, ...lines].join('\r\n')}\r\n`)
  };
}

/** 20 kg either way, one of 300 kg (3.75 %), and one in gallons: 10,000 L are 2,642 US gal. */
const planted = fileOf([20, -20, 40, 300, -40, 20, 0, -20, 40, 20], { at: 6, volume: 2_642 });

async function exported(page: Page): Promise<Map<string, Record<string, string>>> {
  await page.goto('records/');
  const downloading = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Export records' }).click();
  const text = await readFile(await (await downloading).path(), 'utf8');
  const rows = Papa.parse<Record<string, string>>(text, { header: true, skipEmptyLines: true }).data;
  return new Map(rows.map((row) => [row['ticket'] ?? '', row]));
}

async function open(page: Page, ticket: string): Promise<void> {
  await page.goto('records/');
  await page.getByRole('grid').getByText(ticket, { exact: true }).click();
  await expect(page.getByRole('heading', { level: 1 })).toContainText('Q7-KEA');
}

test('gallons in the litre column are proposed with both figures, and nothing is applied', async ({
  page
}) => {
  await importFiles(page, [planted]);
  await open(page, 'T0006');
  const fit = page.locator('section', { has: page.getByRole('heading', { name: 'What it would fit' }) });
  await expect(fit).toContainText('would fit if the volume were in US gallons, not litres');
  // 2,642 x 3.785411784 = 10,001.06 L, 8,000.8 kg: the discrepancy would be -0.8 kg.
  await expect(fit).toContainText(/volume 10\s001\.1 L, not 2\s642\.0 L/);
  await expect(fit.getByRole('table')).toContainText('−1 kg (−0.01 %)');
  await expect(fit).toContainText('Records are never corrected by it');
  const slip = (await exported(page)).get('T0006');
  expect(slip?.['likely_cause']).toBe('would fit if the volume were in US gallons, not litres');
  expect(Number(slip?.['metered_mass_kg'])).toBeCloseTo(2_113.6, 3);
});

test('a record within its scatter needs no explanation, and its chain is a step away', async ({ page }) => {
  await importFiles(page, [planted]);
  await open(page, 'T0002');
  await expect(page.getByRole('main')).toContainText('Within its own scatter');
  const around = page.locator('section', { has: page.getByRole('heading', { name: 'What came before' }) });
  await expect(around).toContainText(/Departure fuel then 9\s980 kg, arrival fuel here 2\s000 kg/);
  await around.getByRole('button', { name: /2031-05-02/ }).click();
  await expect(page.getByText('2031-05-02 10:00 UTC. Discrepancy')).toBeVisible();
});

test('a limit that is written shows what it would flag, and judges only once it is added', async ({
  page
}) => {
  await importFiles(page, [planted]);
  const before = await exported(page);
  expect(before.get('T0003')?.['verdict']).toBe('outside limits');
  await page.goto('limits/');
  await page.getByRole('button', { name: 'New revision' }).click();
  await page.getByLabel('Percentage', { exact: true }).fill('5');
  await expect(page.locator('figure')).toContainText('0 of 9 (0.0');
  await page.getByLabel('Percentage', { exact: true }).fill('0.4');
  await page.getByLabel(/^Floor, kg \(empty/).fill('0');
  await expect(page.locator('figure')).toContainText('4 of 9 (44.4');
  expect((await exported(page)).get('T0002')?.['verdict']).toBe('within limits');

  await page.goto('limits/');
  await page.getByRole('button', { name: 'New revision' }).click();
  await page.getByLabel('Percentage', { exact: true }).fill('5');
  await page.getByLabel('Reason for the change').fill('Operator manual rev 12');
  await page.getByRole('button', { name: 'Add an exception' }).click();
  const exception = page.getByRole('group', { name: 'Exception 1' });
  await expect(page.getByText('An exception needs a type or a station')).toBeVisible();
  await exception.getByLabel(/^Station/).fill('JBEL');
  await exception.getByLabel('Percentage').fill('1');
  await page.getByRole('button', { name: 'Add this revision' }).click();
  await expect(page.getByRole('region', { name: 'Limit sets' })).toContainText('JBEL: 1.00 %');
  await waitReady(page);
  const after = await exported(page);
  expect(after.get('T0003')?.['verdict']).toBe('within limits');
  for (const [ticket, row] of after) {
    expect(row['metered_mass_kg']).toBe(before.get(ticket)?.['metered_mass_kg']);
    expect(row['discrepancy_kg']).toBe(before.get(ticket)?.['discrepancy_kg']);
  }
});

test('tickets of one refuelling are taken apart and joined again', async ({ page }) => {
  const two = [
    'S1,2031-06-01T10:00:00Z,JARV,Q7-KEB,AV150,JARV-H201,5000,800.0,15.0,15.0,2000,10000,0',
    'S2,2031-06-01T10:20:00Z,JARV,Q7-KEB,AV150,JARV-H202,5000,800.0,15.0,15.0,2000,10000,0'
  ];
  const buffer = Buffer.from(`${[header, ...two].join('\n')}\n`);
  await importFiles(page, [{ name: 'split.csv', mimeType: 'text/csv', buffer }]);
  await page.goto('records/');
  await page.getByRole('grid').getByText('S2', { exact: true }).click();
  const sum = page.locator('.sum');
  await expect(sum).toContainText(/8\s000\.0 kg by gauge − 8\s000\.0 kg by meter/);
  await page.getByRole('button', { name: 'These are not one refuelling' }).click();
  await expect(sum).toContainText(/8\s000\.0 kg by gauge − 4\s000\.0 kg by meter/);
  await page.getByRole('button', { name: 'Join them again' }).click();
  await expect(sum).toContainText(/8\s000\.0 kg by gauge − 8\s000\.0 kg by meter/);
});

test('a file of events is read, counted and kept once', async ({ page }) => {
  await importFiles(page, [planted]);
  await page.goto('limits/');
  const text =
    'time,kind,subject,code,note\n2031-05-04,meterExchange,vehicle,JARV-H201,\n04.05.2031,other,tail,X,\n';
  const events = { name: 'events.csv', mimeType: 'text/csv', buffer: Buffer.from(text) };
  const input = page.getByLabel('Events from a CSV file');
  await input.setInputFiles(events);
  await expect(page.getByText('1 events read from events.csv, 1 of them new.')).toBeVisible();
  await expect(page.getByText('Line 3: “04.05.2031” is no day as 2031-07-01.')).toBeVisible();
  await expect(page.getByRole('region', { name: /^Events/ })).toContainText('vehicle JARV-H201');
  await input.setInputFiles(events);
  await expect(page.getByText('1 events read from events.csv, 0 of them new.')).toBeVisible();
});

test('every published value agrees in the reader’s own browser', async ({ page }) => {
  await importFiles(page, [planted]);
  await page.goto('method/');
  const lead = page.getByText(/\d+ of \d+ published values were recomputed/);
  await expect(lead).toBeVisible();
  const [, passed, all] = /(\d+) of (\d+)/.exec((await lead.textContent()) ?? '') ?? [];
  expect(passed).toBe(all);
  expect(Number(all)).toBeGreaterThanOrEqual(30);
  const table = page.getByRole('region', { name: /^Published values/ });
  await expect(table.getByText('agrees', { exact: true })).toHaveCount(Number(all));
  await expect(table.getByText('differs')).toHaveCount(0);
});

test('the pages read well by machine with a form open', async ({ page }) => {
  await importFiles(page, [planted]);
  await page.goto('limits/');
  await page.getByRole('button', { name: 'New revision' }).click();
  await page.getByRole('button', { name: 'Add an exception' }).click();
  await page.getByRole('button', { name: 'Add to aircraft types' }).click();
  await axeScan(page, explained);
  await open(page, 'T0006');
  await axeScan(page, explained);
});
