import type { Page } from '@playwright/test';
import { axeScan } from './support/axe.ts';
import { expect, test } from './support/fixture.ts';
import { importFiles } from './support/site.ts';

/** Text in a drawing lies over the drawing, where axe cannot tell the ground: the inks have a test of their own. */
const explained = { 'color-contrast': 'text inside an SVG, measured in test/lib/ui/palette.test.ts' };

const header =
  'Ticket,End of fuelling (UTC),Station,Tail,Vehicle,Supplier,Volume (L),Observed density (kg/m3),Sample temperature (C),Fuel temperature (C),Arrival fuel (kg),Departure fuel (kg),Ground burn (kg)';
const start = Date.UTC(2031, 0, 6);
const stepDay = 7 * 22;

/** A number between -1 and 1 that is the same for the same index. */
function scrambled(index: number): number {
  const large = Math.abs(Math.sin(index * 12.9898 + 1) * 43_758.5453);
  return 2 * (large - Math.floor(large)) - 1;
}

/**
 * Forty weeks of eight uplifts a day by two aircraft with two vehicles. From the first day of week 23 (9 June) the fuel is
 * 9 kg/m3 denser, and the gauge of Q7-KEA, until then four times as scattered, is mended.
 */
function lines(): string[] {
  return Array.from({ length: 40 * 56 }, (_none, i) => {
    const day = Math.floor(i / 8);
    const tail = i % 2 === 0 ? 'Q7-KEA' : 'Q7-KEB';
    const vehicle = i % 4 < 2 ? 'JGAL-R501' : 'JGAL-R502';
    const density = (day < stepDay ? 792 : 801) + 1.5 * scrambled(Math.floor(day / 7)) + 0.3 * scrambled(i);
    const scatterKg = tail === 'Q7-KEA' && day < stepDay ? 160 : 40;
    const departureKg = 2_000 + 10 * density + scatterKg * scrambled(5_000 + i);
    const time = new Date(start + 3 * i * 3_600_000).toISOString();
    return `T${i},${time},JGAL,${tail},${vehicle},Ostrel Fuels,10000,${density.toFixed(1)},15.0,15.0,2000,${departureKg.toFixed(0)},0`;
  });
}

async function importPlanted(page: Page): Promise<void> {
  const text = `${[header, ...lines()].join('\n')}\n`;
  await importFiles(page, [{ name: 'planted.csv', mimeType: 'text/csv', buffer: Buffer.from(text) }]);
}

test('a step of density is dated, and said not to have moved the discrepancy', async ({ page }) => {
  await importPlanted(page);
  await page.goto('');
  await page
    .getByRole('link', { name: /density of Ostrel Fuels at JGAL stepped up by .* did not move/ })
    .click();
  const steps = page.getByRole('figure', { name: 'Steps of density' });
  await expect(steps).toContainText(/stepped up by (8|9|10)\.\d kg\/m³, \d+ May 2031 to \d+ Jun 2031/);
  await expect(steps).toContainText('The discrepancy did not move');
  await steps.getByRole('button', { name: 'Show table' }).click();
  await expect(steps.getByRole('row', { name: /^9 Jun 2031 56 8/ })).toBeVisible();

  const shape = page.getByRole('figure', { name: 'Shape by month' });
  await shape.getByRole('button', { name: 'Show table' }).click();
  await expect(shape.getByRole('row', { name: /^Jan 2031/ }).first()).toBeVisible();
  // All samples at 15 °C: no slope can be told, and none is made up.
  const slope = page.getByRole('figure', { name: 'Density against temperature' });
  await expect(slope).toContainText('Too few tickets with an observed density and its temperature');
  await axeScan(page, explained);
});

test('a reader holds an aircraft before a day against after it, with the same vehicles', async ({ page }) => {
  await importPlanted(page);
  await page.goto('trend/#of=tail&name=Q7-KEA');
  const around = page.getByRole('region', { name: 'Before and after', exact: true });
  await around.getByLabel('Day', { exact: true }).fill('2031-06-09');
  await expect(around).toContainText('224 refuellings before and 224 after with 2 vehicles');
  await expect(around).toContainText(/Scatter: 1\.\d\d % before, 0\.\d\d % after.*narrower/);
  await expect(around).toContainText(/Level: moved by [−+]0\.\d\d % \(interval [−+]0\.\d\d to [−+]0\.\d\d\)/);
  const figure = around.getByRole('figure', { name: 'With the same vehicles' });
  await figure.getByRole('button', { name: 'Show table' }).click();
  await expect(figure.getByRole('row', { name: /JGAL-R501/ })).toBeVisible();
  await around.getByLabel('Days on each side').selectOption('28');
  await expect(around).toContainText('112 refuellings before and 112 after');
  // Nothing changed with the other aircraft on that day.
  await page.getByLabel('Which').selectOption('Q7-KEB');
  await expect(around).toContainText('not told apart');
  await axeScan(page, explained);
});
