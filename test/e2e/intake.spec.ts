import { readFile } from 'node:fs/promises';
import type { Page } from '@playwright/test';
import { expect, test } from './support/fixture.ts';
import { waitReady } from './support/site.ts';

const header = 'Ticket,End (UTC),Station,Tail,Volume (L),Density (kg/m3)';
const line = (ticket: number, volume = '8012.5') =>
  `T${ticket},2031-07-${String(1 + (ticket % 28)).padStart(2, '0')}T10:05Z,JARV,Q7-KEB,${volume},801.2`;

async function choose(page: Page, name: string, text: string): Promise<void> {
  await page.setInputFiles('input[type=file]', { name, mimeType: 'text/csv', buffer: Buffer.from(text) });
}

async function use(page: Page, name: string, text: string): Promise<void> {
  await choose(page, name, text);
  await page.getByRole('button', { name: 'Use this file' }).click();
  await waitReady(page);
}

const article = (page: Page, name: string) => page.getByRole('article', { name, exact: true });

test('each number of the balance leads to its records, and what is refused comes back mended', async ({
  page
}) => {
  await page.goto('/files/');
  await use(page, 'march.csv', [header, line(1), line(2, '12x'), '', line(3), line(1)].join('\n'));
  const march = article(page, 'march.csv');
  await march.getByRole('button', { name: '1 refused' }).click();
  await expect(march.getByRole('table')).toContainText('unit not known');
  await expect(march.getByRole('table')).toContainText('12x');
  await march.getByRole('button', { name: '1 skipped' }).click();
  await expect(march.getByRole('table')).toContainText('blank record');
  await march.getByRole('button', { name: '1 set aside' }).click();
  await expect(march.getByRole('table')).toContainText('the same record as one that came before it');

  const downloading = page.waitForEvent('download');
  await march.getByRole('button', { name: 'Save what is not used' }).click();
  const saved = await readFile(await (await downloading).path(), 'utf8');
  const mended = saved
    .split('\r\n')
    .filter((row) => !row.startsWith('T1'))
    .join('\r\n')
    .replaceAll('12x', '12000');
  await use(page, 'mended.csv', mended);
  await expect(article(page, 'mended.csv').locator('.balance')).toContainText('1 used');
  await expect(article(page, 'mended.csv').locator('.balance')).toContainText('0 refused');

  // One file undone leaves the other as it was.
  await march.getByRole('button', { name: 'Remove this file' }).click();
  await expect(march).toHaveCount(0);
  await expect(article(page, 'mended.csv').locator('.balance')).toContainText('1 used');
});

test('a file that is stopped while it is read leaves nothing behind', async ({ page }) => {
  await page.goto('/files/');
  const rows = Array.from({ length: 400_000 }, (_, i) => line(i));
  await choose(page, 'large.csv', `${header}\n${rows.join('\n')}\n`);
  const use = page.getByRole('button', { name: 'Use this file' });
  await expect(use).toBeVisible();
  // Pressed in the moment it appears: a fast machine has read the file before a test runner has found the button.
  await page.evaluate(() => {
    const press = () => {
      for (const button of document.querySelectorAll('button')) {
        if (button.textContent.trim() === 'Stop') button.click();
      }
    };
    new MutationObserver(press).observe(document.body, { childList: true, subtree: true });
  });
  await use.click();
  await expect(article(page, 'large.csv')).toContainText('reading was stopped');
  await expect(page.locator('main')).toContainText('0 records in use');
  await page.reload();
  await expect(page.locator('main[data-state=empty]')).toBeVisible();
});

test('the same file again is listed as such after a reload too', async ({ page }) => {
  await page.goto('/files/');
  const text = [header, line(1), line(2)].join('\n');
  await use(page, 'march.csv', text);
  await choose(page, 'copy.csv', text);
  await expect(article(page, 'copy.csv')).toContainText('the same file as march.csv: counted once');
  await page.reload();
  await expect(article(page, 'copy.csv')).toContainText('the same file as march.csv: counted once');
  await expect(page.locator('main')).toContainText('2 records in use');
});

test('no file is kept where the person wants none, and the numbers are there all the same', async ({
  page
}) => {
  await page.goto('/files/');
  await page.getByRole('checkbox', { name: /Keep no files/ }).check();
  await use(page, 'march.csv', [header, line(1), line(2)].join('\n'));
  await expect(article(page, 'march.csv')).toContainText('2 used');
  const kept = () =>
    page.evaluate(
      () =>
        new Promise<unknown[]>((resolve, reject) => {
          const opening = indexedDB.open('gaugebook');
          opening.onerror = () => reject(new Error('no database'));
          opening.onsuccess = () => {
            const all = opening.result.transaction('files').objectStore('files').getAll();
            all.onsuccess = () => {
              opening.result.close();
              resolve((all.result as { source: unknown }[]).map(({ source }) => source));
            };
          };
        })
    );
  await expect.poll(kept).toEqual([null]);
  await page.reload();
  await expect(article(page, 'march.csv')).toContainText('2 used');
});

test('encoding and columns can be changed by hand before a file is used', async ({ page }) => {
  await page.goto('/files/');
  await choose(page, 'march.csv', [`${header},Bowser name`, `${line(1)},Béla 7`].join('\n'));
  const march = article(page, 'march.csv');
  await march.getByText('Read it another way').click();
  const encoding = march.getByRole('combobox', { name: 'Encoding' });
  await expect(march).toContainText('First words beyond ASCII: Béla.');
  await encoding.focus();
  await encoding.selectOption('windows-1252');
  await expect(march).toContainText('First words beyond ASCII: BÃ©la.');
  // The file was gone over again, and the reader is where they were.
  await expect(encoding).toBeFocused();
  await encoding.selectOption('utf-8');
  await expect(march).toContainText('First words beyond ASCII: Béla.');
  await march.getByRole('combobox', { name: 'Column' }).selectOption({ label: 'Bowser name' });
  await march.getByRole('combobox', { name: 'holds' }).selectOption({ label: 'Vehicle' });
  await march.getByRole('button', { name: 'Use this file' }).click();
  await waitReady(page);
  const downloading = page.waitForEvent('download');
  await march.getByRole('button', { name: 'Download account' }).click();
  const account = await readFile(await (await downloading).path(), 'utf8');
  expect(account).toContain('"field": "vehicle"');
});

test('before a file is used the page shows how it is read, why, and what is known of its records', async ({
  page
}) => {
  await page.goto('/files/');
  const dated = (day: string) => line(1).replace('2031-07-02T10:05Z', `${day} 10:05`);
  const text = [
    'Uplifts of café Ünal',
    '',
    header,
    dated('03/04/2031'),
    dated('27/04/2031'),
    '',
    dated('05/04/2031')
  ];
  await choose(page, 'april.csv', text.join('\n'));
  const april = article(page, 'april.csv');
  await expect(april).toContainText(/\d+ bytes, SHA-256 [0-9a-f]{8}/);
  await expect(april).toContainText('utf-8, ');
  await expect(april).toContainText('cells parted by comma; header on line 3; 7 records on 7 lines = ');
  await expect(april).toContainText('1 header + 3 skipped + 3 whose values are read next.');
  await expect(april).toContainText('First words beyond ASCII: café, Ünal.');
  await april.getByText('How each column is read').click();
  const row = (name: string) => april.getByRole('row').filter({ hasText: name }).first();
  await expect(row('End (UTC)')).toContainText(
    '3 April 2031 10:05 from “03/04/2031 10:05”; 27 April 2031 10:05 from “27/04/2031 10:05”'
  );
  await expect(row('End (UTC)')).toContainText('day, month, year, shown by “27/04/2031 10:05” on line 5');
  await expect(row('Volume (L)').getByRole('cell')).toHaveText([
    /Metered volume/,
    /^\s*L$/,
    /its header/,
    /8012.5 L from “8012.5”/,
    /^\s*3$/,
    /^\s*0$/
  ]);
  await april.getByText('First and last records as read').click();
  const records = april.getByRole('table', { name: 'Records as they stand in the file' });
  await expect(records.getByRole('row').filter({ hasText: '27/04/2031' }).first()).toContainText('Q7-KEB');
  // Nothing of it counts yet.
  await expect(page.locator('main')).toContainText('0 records in use');
  await expect(page.getByRole('button', { name: /^Use/ })).toHaveCount(1);
});

test('the unit of a column can be changed by keyboard before a file is used, and its values change with it', async ({
  page
}) => {
  await page.goto('/files/');
  await choose(page, 'march.csv', [header, line(1, '2000'), line(2, '3000')].join('\n'));
  const march = article(page, 'march.csv');
  await march.getByText('Read it another way').press('Enter');
  const unit = march.getByRole('combobox', { name: 'in unit' });
  const column = march.getByRole('combobox', { name: 'Column' });
  await expect(unit, 'a ticket has no unit').toHaveCount(0);
  await column.focus();
  await page.keyboard.type('Volume');
  await expect(unit.locator('option:checked')).toHaveText('L, as found');
  await page.keyboard.press('Tab');
  await page.keyboard.press('Tab');
  await expect(unit).toBeFocused();
  await page.keyboard.type('US gal');
  await expect(unit.locator('option:checked')).toHaveText('US gal');
  await march.getByText('How each column is read').click();
  await expect(march.getByRole('row').filter({ hasText: 'Volume (L)' }).first()).toContainText('2000 US gal');
  await march.getByRole('button', { name: 'Use this file' }).click();
  await waitReady(page);

  await page.goto('/records/');
  const downloading = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Export records' }).click();
  const [columns = '', first = '', second = ''] = (
    await readFile(await (await downloading).path(), 'utf8')
  ).split('\r\n');
  const at = columns.split(',').indexOf('volume_l');
  // 1 US gallon is 3.785411784 L (NIST Handbook 44, appendix C).
  expect([first, second].map((row) => Number(row.split(',')[at]))).toEqual([
    2000 * 3.785411784,
    3000 * 3.785411784
  ]);
});

test('look-alike names are merged and taken apart by hand', async ({ page }) => {
  await page.goto('/files/');
  await use(page, 'march.csv', [header, line(1), line(2).replace('Q7-KEB', 'Q7KEB')].join('\n'));
  const section = page.getByRole('region', { name: 'Names that look alike' });
  await section.getByRole('button', { name: 'Count all as Q7-KEB' }).click();
  await expect(section).toContainText('Counted as Q7-KEB');
  await section.getByRole('button', { name: 'Take apart' }).click();
  await expect(section.getByRole('button', { name: 'Count all as Q7KEB' })).toBeVisible();
});
