import { axeScan } from './support/axe.ts';
import { expect, test } from './support/fixture.ts';
import { importFiles } from './support/site.ts';

/** Text in a drawing lies over the drawing, where axe cannot tell the ground: the inks have a test of their own. */
const explained = { 'color-contrast': 'text inside an SVG, measured in test/lib/ui/palette.test.ts' };

const header =
  'Ticket,End of fuelling (UTC),Station,Tail,Vehicle,Supplier,Volume (L),Observed density (kg/m3),Sample temperature (C),Fuel temperature (C),Arrival fuel (kg),Departure fuel (kg),Chemical water detector';

interface Place {
  readonly station: string;
  readonly supplier: string;
  /** Checks that fail and checks left blank, by their number. */
  readonly failed: readonly number[];
  readonly blank: readonly number[];
}

/** Two hundred refuellings at each place, four a day from 1 May. */
function linesOf({ station, supplier, failed, blank }: Place): string[] {
  return Array.from({ length: 200 }, (_none, index) => {
    const time = new Date(Date.UTC(2031, 4, 1, 6 * index)).toISOString();
    const check = failed.includes(index) ? 'positive' : blank.includes(index) ? '' : 'negative';
    return `${station}${index},${time},${station},Q7-KEA,${station}-H201,${supplier},10000,800.0,15.0,15.0,2000,10000,${check}`;
  });
}

const places: readonly Place[] = [
  {
    station: 'JARV',
    supplier: 'Ostrel Fuels',
    failed: [5, 45, 85, 125, 165],
    blank: []
  },
  {
    station: 'JLOM',
    supplier: 'Sundrift Jet Supply',
    failed: [80, 81, 83, 84, 86, 87, 88, 90],
    // All four of 3 May.
    blank: [8, 9, 10, 11]
  }
];
const text = [header, ...places.flatMap(linesOf)].join('\n');
const file = { name: 'checks.csv', mimeType: 'text/csv', buffer: Buffer.from(`${text}\n`) };

test('a reader finds the days without checks, the run of failures and how suppliers compare', async ({
  page
}) => {
  await importFiles(
    page,
    [file],
    [
      ['What does “positive”', /failed/i],
      ['What does “negative”', /passed/i]
    ]
  );
  await page.goto('samples/');
  const calendar = page.getByRole('figure', { name: 'Coverage day by day' });
  await calendar.getByRole('button', { name: 'Show table' }).click();
  const blankDay = calendar.getByRole('row', { name: /JLOM 3 May 2031/ });
  // Due 4, with a result 0: a blank is not a pass.
  await expect(blankDay).toContainText(/4\s*0\s*0\.0/);

  await calendar.getByLabel('Calendar by').selectOption('week');
  await expect(page.getByRole('figure', { name: 'Coverage week by week' })).toBeVisible();
  await page.goBack();

  const ratio = page.getByRole('figure', { name: 'Between suppliers' });
  // 8 of 196 against 5 of 200.
  await expect(ratio).toContainText('No supplier’s failures stand above all others');
  await ratio.getByRole('button', { name: 'Show table' }).click();
  await expect(ratio.getByRole('row', { name: /Sundrift/ })).toContainText(/8\s*196\s*5\s*200\s*1\.6/);
  await ratio.getByLabel('Against').selectOption('Ostrel Fuels');
  await expect(ratio.getByRole('row', { name: /Sundrift/ })).toContainText('1.6');
  await expect(ratio.getByRole('row', { name: /^Ostrel/ })).toHaveCount(0);

  // Enter on a cell of the calendar narrows the page to its place and day.
  await calendar.getByRole('application').focus();
  await page.keyboard.press('ArrowDown');
  await page.keyboard.press('Enter');
  await expect(page.getByText(/4 of 400 records/)).toBeVisible();
  await page.goBack();

  await page.goto('samples/#station=JLOM');
  const gaps = page.getByRole('figure', { name: 'Between failures' });
  await expect(gaps).toContainText('Pace of all others: 5 failed of 200 with a result');
  await expect(gaps).toContainText('Failures came faster than the pace: 8 from 21 May 2031 to 23 May 2031');
  await gaps.getByLabel('Count').selectOption('days');
  await gaps.getByRole('button', { name: 'Show table' }).click();
  await expect(gaps.getByRole('row', { name: /still running/ })).toBeVisible();
  await axeScan(page, explained);
});
