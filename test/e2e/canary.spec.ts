import type { Page } from '@playwright/test';
import { expect, test } from './support/fixture.ts';
import { builtPages, importFiles, waitReady, type ImportFile } from './support/site.ts';

/**
 * A file whose every name and text is marked is imported, and the marks are looked for wherever something could carry
 * them off without being asked: addresses, titles, messages, names of what is kept.
 */

const mark = /canary/i;

function canaryFile(): ImportFile {
  const header = [
    'Ticket,End of fuelling UTC,Station,Tail,Flight,Batch,Volume L,Density 15C kg/m3,Fuel temperature C',
    'Arrival fuel kg,Departure fuel kg,Remarks,CANARY unmapped'
  ].join(',');
  const rows = Array.from({ length: 40 }, (_, index) => {
    const day = String((index % 28) + 1).padStart(2, '0');
    const meter = `CANARYFLIGHT,CANARYBATCH,${10_000 + index},800,15`;
    return `CANARYTICKET${index},2026-03-${day}T10:00:00Z,QC1,CANARY-TAIL,${meter},2000,10000,CANARYREMARK,CANARYSECRET`;
  });
  const buffer = Buffer.from([header, ...rows].join('\r\n'));
  return { name: 'CANARYFILE.csv', mimeType: 'text/csv', buffer };
}

/** Names of all that the page's origin keeps, and the values of its plain settings. */
async function namesKept(page: Page): Promise<string[]> {
  return page.evaluate(async () => {
    const answer = <T>(request: IDBRequest<T>) =>
      new Promise<T>((resolve, reject) => {
        request.onsuccess = () => resolve(request.result);
        request.onerror = () => reject(new Error(String(request.error)));
      });
    const names = [...Object.entries(localStorage), ...Object.entries(sessionStorage)].flat().map(String);
    names.push(document.cookie, ...(await caches.keys()));
    for (const { name = '' } of await indexedDB.databases()) {
      const database = await answer(indexedDB.open(name));
      names.push(name);
      for (const store of database.objectStoreNames) {
        const keys = await answer(database.transaction(store).objectStore(store).getAllKeys());
        names.push(store, ...keys.map((key) => JSON.stringify(key)));
      }
      database.close();
    }
    return names;
  });
}

test('nothing of an imported file is in an address, a title, a message or the name of what is kept', async ({
  page
}) => {
  const seen: string[] = [];
  page.on('request', (request) => seen.push(`request ${request.url()} ${request.postData() ?? ''}`));
  page.on('framenavigated', (frame) => seen.push(`address ${frame.url()}`));
  page.context().on('console', (message) => seen.push(`message ${message.text()}`));
  await importFiles(page, [canaryFile()]);
  for (const path of builtPages()) {
    await page.goto(path);
    await waitReady(page);
    seen.push(`title ${await page.title()}`);
  }
  const kept = await namesKept(page);
  const digest = expect.stringMatching(/^"[0-9a-f]{64}"$/);
  expect(kept, 'the layout is kept, under a digest of its header').toContainEqual(digest);
  expect(seen.filter((line) => line.startsWith('address')).length).toBeGreaterThan(1);
  expect([...seen, ...kept].filter((line) => mark.test(line))).toEqual([]);
  // The file was really read: what must not leave is on the page.
  await page.goto('records/');
  await expect(page.getByText('CANARYTICKET0').first()).toBeVisible();
});

test('a file is imported and answered without a network, once the page is there', async ({
  page,
  context,
  watch
}) => {
  await page.goto('files/');
  await expect(page.locator('main[data-state=empty]')).toBeVisible();
  await context.setOffline(true);
  // A font is loaded when it is first drawn; without it the page falls back to one of the system.
  watch.expectMessage(/ERR_INTERNET_DISCONNECTED .*\.woff2\)$/);
  await importFiles(page, [canaryFile()]);
  await expect(page.getByRole('article', { name: 'CANARYFILE.csv' })).toContainText('40 used');
});
