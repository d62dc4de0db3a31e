import type { Page } from '@playwright/test';
import { createSite, listen } from '../../src/tools/serve.js';
import { expect, test } from './support/fixture.ts';
import { buildFolder, builtPages } from './support/site.ts';

const pages = builtPages();

async function expectPage(page: Page): Promise<void> {
  await expect(page.locator('main[data-state]')).toBeVisible();
  await expect(page.getByRole('heading', { level: 1 })).toHaveCount(1);
  await expect(page).toHaveTitle(/\S/);
}

test('the site has a first page', () => {
  expect(pages).toContain('');
});

for (const path of pages) {
  test(`/${path} shows its heading, with a clean console and no request outside the origin`, async ({
    page
  }) => {
    await page.goto(path);
    await expectPage(page);
  });
}

test.describe('a copy under some path of another server', () => {
  const server = createSite({ root: buildFolder, prefix: '/some/where-else/', plain: true });
  let base = '';

  test.beforeAll(async () => {
    base = `http://127.0.0.1:${await listen(server, { port: 0 })}/some/where-else/`;
  });
  test.afterAll(() => {
    server.close();
    server.closeAllConnections();
  });

  for (const path of pages) {
    test(`shows /${path}, after a reload too, and asks for nothing outside the copy`, async ({
      page,
      watch
    }) => {
      watch.allowOrigin(new URL(base).origin);
      const outside: string[] = [];
      page.on('request', (request) => {
        if (!request.url().startsWith(base) && !request.url().startsWith('blob:'))
          outside.push(request.url());
      });
      await page.goto(base + path);
      await expectPage(page);
      await page.reload();
      await expectPage(page);
      expect(outside).toEqual([]);
    });
  }
});
