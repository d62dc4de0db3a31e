import { createSite, listen } from '../../src/tools/serve.js';
import { expect, test } from './support/fixture.ts';
import { buildFolder, builtPages } from './support/site.ts';

const pages = builtPages();

test('the site has a first page', () => {
  expect(pages).toContain('');
});

for (const path of pages) {
  test(`/${path} shows its heading, with a clean console and no request outside the origin`, async ({
    page
  }) => {
    await page.goto(path);
    await expect(page.getByRole('heading', { level: 1 })).toHaveCount(1);
  });
}

test('a copy of the site under any path of another server shows every page, each after a reload too', async ({
  page,
  watch
}) => {
  const server = createSite({ root: buildFolder, prefix: '/some/where-else/', plain: true });
  const port = await listen(server, { port: 0 });
  const base = `http://127.0.0.1:${port}/some/where-else/`;
  watch.allowOrigin(new URL(base).origin);
  const outside: string[] = [];
  page.on('request', (request) => {
    const url = request.url();
    if (!url.startsWith('blob:') && !url.startsWith(base)) outside.push(url);
  });
  for (const path of pages) {
    await page.goto(base + path);
    await expect(page.getByRole('heading', { level: 1 })).toHaveCount(1);
    await page.reload();
    await expect(page.getByRole('heading', { level: 1 })).toHaveCount(1);
  }
  expect(outside, 'requests outside the copy').toEqual([]);
  server.closeAllConnections();
  server.close();
});
