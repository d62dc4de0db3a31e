import type { Page } from '@playwright/test';
import { expect, test, type Watch } from './support/fixture.ts';
import { waitReady } from './support/site.ts';

const header = 'Ticket,End (UTC),Station,Tail,Volume (L),Density (kg/m3)';
const line = (ticket: number, volume = '8012.5') =>
  `T${ticket},2031-07-${String(1 + (ticket % 28)).padStart(2, '0')}T10:05Z,JARV,Q7-KEB,${volume},801.2`;
const march = [header, line(1), line(2)].join('\n');

async function choose(page: Page, name: string, text: string): Promise<void> {
  await page.setInputFiles('input[type=file]', { name, mimeType: 'text/csv', buffer: Buffer.from(text) });
}

async function use(page: Page, name: string, text: string): Promise<void> {
  await choose(page, name, text);
  await page.getByRole('button', { name: 'Use this file' }).click();
  await waitReady(page);
}

const article = (page: Page, name: string) => page.getByRole('article', { name, exact: true });

/** Runs code in the worker before the worker's own script: the database is opened there. */
async function beforeWorker(page: Page, code: string): Promise<void> {
  await page.addInitScript((given) => {
    const make = URL.createObjectURL.bind(URL);
    const script = (...parts: BlobPart[]) => make(new Blob(parts, { type: 'text/javascript' }));
    const first = script(given);
    // Imported first, it runs before what is imported next.
    URL.createObjectURL = (made) => script(`import ${JSON.stringify(first)};\n`, made as Blob);
  }, code);
}

/** A page of the site's origin that does nothing by itself. */
async function bystander(page: Page, watch: Watch): Promise<Page> {
  // A picture by itself has the browser ask for an icon that is not there.
  watch.expectMessage(/favicon\.ico/);
  const other = await page.context().newPage();
  await other.goto('/mark.svg');
  return other;
}

/** Opens the database as another program would that never lets go of it; gives its version. */
async function hold(page: Page, version?: number): Promise<number> {
  return page.evaluate(
    (wanted) =>
      new Promise<number>((resolve, reject) => {
        const opening = indexedDB.open('gaugebook', wanted);
        opening.onerror = () => reject(new Error(String(opening.error)));
        opening.onsuccess = () => {
          (window as { held?: IDBDatabase }).held = opening.result;
          resolve(opening.result.version);
        };
      }),
    version
  );
}

test('a full disk stops no reading: the records are in use and the page says what is not kept', async ({
  page,
  context
}) => {
  await page.goto('/files/');
  const devtools = await context.newCDPSession(page);
  const origin = new URL(page.url()).origin;
  await devtools.send('Storage.overrideQuotaForOrigin', { origin, quotaSize: 10_000 });
  const rows = Array.from({ length: 20_000 }, (_, i) => line(i, `${8000 + i}.5`));
  await use(page, 'march.csv', `${header}\n${rows.join('\n')}\n`);
  await expect(article(page, 'march.csv')).toContainText('20\u2009000 used');
  await expect(article(page, 'march.csv')).toContainText('this browser could not keep it');
});

test('a browser without storage works for the window, and says so', async ({ page }) => {
  // As private windows of some browsers do.
  await beforeWorker(
    page,
    'IDBFactory.prototype.open = () => { throw new DOMException("", "SecurityError"); };'
  );
  await page.goto('/files/');
  await use(page, 'march.csv', march);
  await expect(article(page, 'march.csv')).toContainText('2 used');
  await expect(page.locator('main')).toContainText('Storage: this window only');
});

test('two windows lose nothing of each other, and each is told', async ({ page, context }) => {
  await page.goto('/files/');
  const other = await context.newPage();
  await other.goto('/files/');
  await use(page, 'march.csv', [header, line(1)].join('\n'));
  await expect(other.locator('main')).toContainText('Another window changed what is kept');
  // Its header is known from the first window, so it is read at once.
  await choose(other, 'april.csv', [header, line(2)].join('\n'));
  await expect(article(other, 'april.csv')).toContainText('1 used');
  await page.reload();
  await expect(page.locator('main')).toContainText('2 records in use');
  await expect(article(page, 'april.csv')).toContainText('1 used');
});

test('what a newer version keeps is left as it is, and the page says why it keeps nothing', async ({
  page,
  watch
}) => {
  const newer = await bystander(page, watch);
  await hold(newer, 2);
  await page.goto('/files/');
  await use(page, 'march.csv', march);
  await expect(article(page, 'march.csv')).toContainText('2 used');
  await expect(page.locator('main')).toContainText(
    'Storage: this window only, since a newer version of Gaugebook keeps its own. That is left as it is'
  );
  const left = await newer.evaluate(() => {
    const { held } = window as { held?: IDBDatabase };
    return [held?.version, held?.objectStoreNames.length];
  });
  expect(left, 'version and stores').toEqual([2, 0]);
});

test('an upgrade that an older window blocks is given up for this window, and the page says so', async ({
  page,
  watch
}) => {
  const older = await bystander(page, watch);
  await hold(older);
  // This window is of the version after: it asks for one schema more than the other holds.
  await beforeWorker(
    page,
    `const open = IDBFactory.prototype.open;
     IDBFactory.prototype.open = function (name, version) { return open.call(this, name, version + 1); };`
  );
  await page.goto('/files/');
  await use(page, 'march.csv', march);
  await expect(article(page, 'march.csv')).toContainText('2 used');
  await expect(page.locator('main')).toContainText(
    'Storage: this window only, since another window holds what is kept'
  );
});

test('a window lets go of what is kept for a newer version, goes on by itself, and says so', async ({
  page,
  watch
}) => {
  await page.goto('/files/');
  await use(page, 'march.csv', march);
  const newer = await bystander(page, watch);
  expect(await hold(newer, 2)).toBe(2);
  await expect(page.locator('main')).toContainText('Another window changed what is kept');
  // How such files are read is kept too: it is asked again.
  await use(page, 'april.csv', [header, line(3)].join('\n'));
  await expect(article(page, 'april.csv')).toContainText('1 used');
  await expect(article(page, 'april.csv')).toContainText('this browser could not keep it');
  await expect(page.locator('main')).toContainText('a newer version of Gaugebook keeps its own');
  await expect(page.locator('main')).toContainText('3 records in use');
});

test('a database that is being deleted elsewhere holds nobody up', async ({ page, watch }) => {
  const older = await bystander(page, watch);
  await hold(older);
  const eraser = await bystander(page, watch);
  await eraser.evaluate(() => void indexedDB.deleteDatabase('gaugebook'));
  await beforeWorker(
    page,
    `const later = setTimeout;
     globalThis.setTimeout = (run, ms) => later(run, ms === 10_000 ? 300 : ms);`
  );
  await page.goto('/files/');
  await use(page, 'march.csv', march);
  await expect(page.locator('main')).toContainText('since another window holds what is kept');
});

test('a database that is deleted under a window leaves it what it has, and the page says so', async ({
  page,
  watch
}) => {
  await page.goto('/files/');
  await use(page, 'march.csv', march);
  const eraser = await bystander(page, watch);
  await eraser.evaluate(
    () =>
      new Promise((resolve) => {
        indexedDB.deleteDatabase('gaugebook').onsuccess = resolve;
      })
  );
  await expect(page.locator('main')).toContainText('Another window changed what is kept');
  // How such files are read is kept too: it is asked again.
  await use(page, 'april.csv', [header, line(3)].join('\n'));
  await expect(article(page, 'april.csv')).toContainText('this browser could not keep it');
  await expect(page.locator('main')).toContainText('3 records in use');
  await page.reload();
  await expect(page.locator('main[data-state=empty]')).toBeVisible();
});

/** Aborts each transaction that writes to a store when it has written: what a full disk or a crash may do. */
const aborting = (store: string) => `
  const put = IDBObjectStore.prototype.put;
  IDBObjectStore.prototype.put = function (...given) {
    const request = put.apply(this, given);
    if (this.name === ${JSON.stringify(store)}) this.transaction.abort();
    return request;
  };`;

for (const [store, after] of [
  ['files', 'No files yet'],
  ['columns', '2 records in use']
] as const) {
  test(`a write of ${store} that is broken off stops nothing, is said, and leaves no half of it`, async ({
    page,
    context
  }) => {
    await beforeWorker(page, aborting(store));
    await page.goto('/files/');
    await use(page, 'march.csv', march);
    await expect(article(page, 'march.csv')).toContainText('2 used');
    await expect(article(page, 'march.csv')).toContainText('this browser could not keep it');
    await expect(page.locator('main')).toContainText('2 records in use');
    await page.close();
    // A file without its columns is read again from its source.
    const later = await context.newPage();
    await later.goto('/files/');
    await expect(later.locator('main')).toContainText(after);
  });
}

test('a window that is closed while it keeps a file leaves all of it or nothing, and what was there before', async ({
  page,
  context
}) => {
  test.slow();
  await page.goto('/files/');
  await use(page, 'march.csv', march);
  const rows = Array.from({ length: 20_000 }, (_, i) => line(i, `${8000 + i}.5`));
  // Closed at several moments of keeping, from the first to one when most likely all is kept.
  for (const afterMs of [0, 40, 200]) {
    const window = await context.newPage();
    await window.goto('/files/');
    await choose(
      window,
      `large-${afterMs}.csv`,
      `${header},x${afterMs}\n${rows.map((row) => `${row},${afterMs}`).join('\n')}`
    );
    await window.getByRole('button', { name: 'Use this file' }).click();
    await window.waitForTimeout(afterMs);
    await window.close();
    const later = await context.newPage();
    await later.goto('/files/');
    await waitReady(later);
    await expect(article(later, 'march.csv')).toContainText('2 used');
    const large = article(later, `large-${afterMs}.csv`);
    if ((await large.count()) > 0) {
      await expect(large.locator('.balance')).toContainText('20\u2009001 records');
      await large.getByRole('button', { name: 'Remove this file' }).click();
      await expect(large).toHaveCount(0);
      await waitReady(later);
    }
    await later.close();
  }
});

test('settings that cannot be kept hold all the same, and the page says so', async ({ page }) => {
  await beforeWorker(page, aborting('single'));
  await page.goto('/files/');
  await use(page, 'march.csv', march);
  await page.getByRole('checkbox', { name: /Keep no files/ }).check();
  await expect(page.locator('main')).toContainText('The browser refused to keep or to find something');
  await expect(page.getByRole('checkbox', { name: /Keep no files/ })).toBeChecked();
});
