import { axeScan } from './support/axe.ts';
import { expect, test } from './support/fixture.ts';
import { waitReady } from './support/site.ts';

const explained = {
  'color-contrast': 'text inside an SVG: inks are measured against the page by a test of their own'
};

test('suppliers: from the plain difference to the fair one, and no figure where nothing is common', async ({
  page
}) => {
  test.setTimeout(120_000);
  await page.goto('');
  await page.getByRole('button', { name: 'Open the demo' }).click();
  await waitReady(page);
  await page.getByRole('link', { name: 'Compare suppliers' }).click();

  // All pairs in one table: one looks far apart plainly, and is alike like for like. It is opened from there.
  const pairs = page.getByRole('table', { name: /each two suppliers/ });
  const confounded = pairs.getByRole('row', { name: /Ostrel Fuels less Pellam/ });
  await expect(confounded).toContainText('not told apart');
  await confounded.getByText(/Ostrel Fuels less Pellam/).click();
  await expect(page.getByLabel('Second')).toHaveValue('Pellam & Roe Fuel Services');
  const main = page.getByRole('main');
  await expect(main).toContainText('Like for like, Ostrel Fuels less Pellam & Roe Fuel Services');
  await expect(main).toContainText('What moves it most: comparing at the same station.');

  // The overlap stands beside it, with a caution where it is small.
  const overlap = page.getByRole('figure', { name: 'How much of each can be compared' });
  await expect(overlap).toContainText('of the rest it says nothing');

  // The rows of the forest end with the whole; by season there are more of them.
  const forest = page.getByRole('figure', { name: 'By type and size' });
  await forest.getByRole('button', { name: 'Show table' }).click();
  await expect(forest.getByRole('row').last()).toContainText('All, like for like');
  const rows = await forest.getByRole('row').count();
  await forest.getByLabel('Rows').selectOption('season');
  await expect(forest.getByRole('row').nth(rows + 8)).toBeAttached();

  // At one station the plain figure is nearly the fair one: the station was what moved it.
  await page.getByRole('combobox', { name: 'At', exact: true }).selectOption('JGAL');
  await expect(page.getByRole('group', { name: 'Filter' })).toContainText('JGAL');
  await expect(main).not.toContainText('What moves it most');
  await page.getByRole('combobox', { name: 'At', exact: true }).selectOption('');
  await page.getByRole('combobox', { name: 'By', exact: true }).selectOption('mean');
  await expect(forest).toContainText('gauge says more');
  await axeScan(page, explained);

  // Two that share no station are refused in words, and no forest is drawn.
  await page.getByLabel('Second').selectOption('Sundrift Jet Supply');
  await expect(main).toContainText('No fair figure');
  await expect(main).toContainText('they share no station with the same types, sizes and seasons');
  await expect(page.getByRole('figure', { name: 'By type and size' })).toHaveCount(0);
  await axeScan(page, explained);
});
