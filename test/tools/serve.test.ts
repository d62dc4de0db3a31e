import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { request as ask } from 'node:http';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { createSite, listen } from '../../src/tools/serve.js';

interface Reply {
  readonly status: number | undefined;
  readonly headers: Record<string, string | string[] | undefined>;
  readonly text: string;
}

const page = `<meta http-equiv="content-security-policy" content="default-src 'none'; script-src 'self'">`;
const opened: ReturnType<typeof createSite>[] = [];
let folder = '';

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'site-'));
  const root = join(folder, 'root');
  mkdirSync(join(root, 'files'), { recursive: true });
  mkdirSync(join(root, '_app', 'immutable'), { recursive: true });
  writeFileSync(join(root, 'index.html'), page);
  writeFileSync(join(root, 'files', 'index.html'), page.replace("'none'", "'self'"));
  writeFileSync(join(root, '_app', 'immutable', 'a.js'), 'export {};');
  writeFileSync(join(root, '.hidden'), 'secret');
  writeFileSync(join(folder, 'outside.txt'), 'secret');
  symlinkSync(join(folder, 'outside.txt'), join(root, 'link.txt'));
});

afterAll(() => {
  for (const server of opened) server.close();
  rmSync(folder, { recursive: true });
});

/** Starts a site and gives a way to ask it for paths exactly as written. */
async function site(options: { prefix?: string; plain?: boolean } = {}) {
  const server = createSite({ root: join(folder, 'root'), ...options });
  opened.push(server);
  const port = await listen(server, { port: 0 });
  return (path: string, more: { method?: string; headers?: Record<string, string> } = {}): Promise<Reply> =>
    new Promise((resolve, reject) => {
      const call = ask({ host: '127.0.0.1', port, path, agent: false, ...more }, (response) => {
        let text = '';
        response.on('data', (bytes: Buffer) => (text += bytes.toString()));
        response.on('end', () => resolve({ status: response.statusCode, headers: response.headers, text }));
      });
      call.on('error', reject).end();
    });
}

describe('the static server', () => {
  it.each([
    ['/', 'text/html; charset=utf-8', 'no-cache'],
    ['/files/', 'text/html; charset=utf-8', 'no-cache'],
    ['/files/?a=1', 'text/html; charset=utf-8', 'no-cache'],
    ['/_app/immutable/a.js', 'text/javascript; charset=utf-8', 'public, max-age=31536000, immutable']
  ])('serves %s as %s, cached as %s', async (path, type, cache) => {
    const { status, headers } = await (await site())(path);
    expect(status).toBe(200);
    expect(headers).toMatchObject({ 'content-type': type, 'cache-control': cache });
  });

  it.each([
    ['/files', '/files/'],
    ['/files?a=1', '/files/?a=1'],
    ['//files', '/files/']
  ])('sends a folder asked for as %s to %s of the same host', async (path, location) => {
    const reply = await (await site())(path);
    expect([reply.status, reply.headers['location']]).toEqual([307, location]);
  });

  it.each([
    '/../outside.txt',
    '/%2e%2e/outside.txt',
    '/files/..%2f..%2foutside.txt',
    '/..%5coutside.txt',
    '/link.txt',
    '/.hidden',
    '/%00',
    '/%zz',
    '/nothing',
    '/_app/'
  ])('does not give %s', async (path) => {
    const reply = await (await site())(path);
    expect(reply.status).toBe(404);
    expect(reply.text).not.toContain('secret');
  });

  it('serves under a prefix and nothing outside it', async () => {
    const get = await site({ prefix: '/a/b/' });
    expect((await get('/a/b/files/')).status).toBe(200);
    expect((await get('/a/b')).headers['location']).toBe('/a/b/');
    expect((await get('/a/b/files')).headers['location']).toBe('/a/b/files/');
    expect((await get('/files/')).status).toBe(404);
    expect(() => createSite({ root: folder, prefix: 'a' })).toThrow('prefix: a, need');
  });

  it("says each page's own policy as a header, and that nobody may frame it", async () => {
    const get = await site();
    const frames = "frame-ancestors 'none'";
    expect((await get('/')).headers).toMatchObject({
      'content-security-policy': `default-src 'none'; script-src 'self'; ${frames}`,
      'x-content-type-options': 'nosniff',
      'referrer-policy': 'no-referrer'
    });
    expect((await get('/files/')).headers['content-security-policy']).toBe(
      `default-src 'self'; script-src 'self'; ${frames}`
    );
    expect((await get('/_app/immutable/a.js')).headers['content-security-policy']).toBe(
      `default-src 'none'; script-src 'self'; ${frames}`
    );
  });

  it('says no policy in the plain variant', async () => {
    const { headers } = await (await site({ plain: true }))('/');
    expect(Object.keys(headers).filter((name) => /policy|options/.test(name))).toEqual([]);
  });

  it('answers 304 to a known entity tag, no body to HEAD and 405 to POST', async () => {
    const get = await site();
    const { headers } = await get('/');
    expect((await get('/', { headers: { 'if-none-match': String(headers['etag']) } })).status).toBe(304);
    expect(await get('/', { method: 'HEAD' })).toMatchObject({ status: 200, text: '' });
    expect((await get('/', { method: 'POST' })).status).toBe(405);
  });

  it('takes the next free port, or says that a fixed one is taken', async () => {
    const first = createSite({ root: folder });
    const second = createSite({ root: folder });
    opened.push(first, second);
    const port = await listen(first, { port: 0 });
    await expect(listen(second, { port })).rejects.toThrow('EADDRINUSE');
    expect(await listen(second, { port, tries: 50 })).toBeGreaterThan(port);
  });
});
