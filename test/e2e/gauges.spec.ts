import { expect, test } from './support/fixture.ts';
import { waitReady } from './support/site.ts';

test('from the aircraft to one gauge and the fuel level where it sticks; the same for a vehicle', async ({
  page
}) => {
  test.setTimeout(120_000);
  await page.goto('');
  await page.getByRole('button', { name: 'Open the demo' }).click();
  await waitReady(page);
  // What would fit the whole of it stands beside what is said of it, and on its own page.
  await expect(page.getByRole('listitem').filter({ hasText: 'Q7-KEB moved' })).toContainText(
    'would fit a gauge that is off or frozen'
  );
  await page.getByRole('link', { name: 'Aircraft', exact: true }).click();
  await waitReady(page);

  await expect(page.getByRole('region', { name: 'What would fit' })).toContainText('6 of 6 stations');

  // Every aircraft with both parts of its line, its interval and its count.
  const lines = page.getByRole('figure', { name: 'A constant or a share of the uplift' });
  await lines.getByRole('button', { name: 'Show table' }).click();
  await expect(lines.getByRole('row')).toHaveCount(1 + 24);
  await expect(lines.getByRole('row', { name: /^Q7-KEB AV150/ })).toContainText('a share of the uplift');

  // Story 11: the gauge of Q7-LOC sticks near full.
  await page.getByLabel('Which tail').selectOption('Q7-LOC');
  const levels = page.getByRole('figure', { name: 'Q7-LOC by fuel level' });
  await expect(levels).toContainText('70\u2009000 to 75\u2009000 kg');
  await levels.getByRole('button', { name: 'Show table' }).click();
  await expect(levels.getByRole('row', { name: /70\s000 to 75\s000/ })).toContainText('off its other levels');
  await expect(levels.getByRole('row', { name: /40\s000 to 45\s000/ })).toContainText('not told apart');
  expect(page.url()).toContain('name=Q7-LOC');

  // By tank, where tanks are given; Back goes to the level before.
  await levels.getByLabel('Level of').selectOption('tanksAfter:left outer');
  await expect(levels).toContainText('only the total is measured against the meter');
  await page.goBack();
  await expect(levels.getByLabel('Level of')).toHaveValue('departureFuel');

  // Nobody writes the ground burn at JIVA: its vehicles carry a constant below zero (story 10).
  await page.getByRole('link', { name: 'Vehicles', exact: true }).click();
  await waitReady(page);
  const meters = page.getByRole('figure', { name: 'A constant or a share of the uplift' });
  await meters.getByRole('button', { name: 'Show table' }).click();
  await expect(meters.getByRole('row', { name: /^JIVA-R641/ })).toContainText('a constant');
  await expect(page.getByRole('figure', { name: /by fuel level/ })).toHaveCount(0);
});
