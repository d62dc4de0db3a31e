/** A small static file server for the built site: for a look at home, for the browser tests and the benchmark. */
import { createReadStream } from 'node:fs';
import { readFile, realpath, stat } from 'node:fs/promises';
import { createServer } from 'node:http';
import { extname, join, sep } from 'node:path';
import { fileURLToPath } from 'node:url';
import { isCalledDirectly, option, projectUrl, say } from './process.js';

/** @type {Record<string, string>} */
const mimeTypes = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.json': 'application/json; charset=utf-8',
  '.csv': 'text/csv; charset=utf-8',
  '.txt': 'text/plain; charset=utf-8',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.ico': 'image/x-icon',
  '.woff2': 'font/woff2',
  '.woff': 'font/woff',
  '.wasm': 'application/wasm',
  '.webmanifest': 'application/manifest+json'
};

const policyPattern = /<meta http-equiv="content-security-policy" content="([^"]*)"/i;
const immutableFolder = `${sep}_app${sep}immutable${sep}`;

/**
 * @typedef {{root: string, prefix?: string, plain?: boolean}} SiteOptions
 *   root: folder to serve; prefix: path the site stands under, such as `/sub/path/`; plain: no security headers,
 *   as a host sends that knows nothing of the site
 * @typedef {{status: number, headers: Record<string, string>, file?: string, text?: string}} Answer
 */

/**
 * The path asked for, without the prefix and with every segment decoded; null for one that is malformed, outside the
 * prefix or hidden.
 * @param {string} url
 * @param {string} prefix
 */
export function requestedPath(url, prefix) {
  try {
    const path = decodeURIComponent(url.split(/[?#]/, 1)[0] ?? '').replaceAll('\\', '/');
    if (!path.startsWith(prefix) || path.includes('\0')) return null;
    const inside = path.slice(prefix.length - 1);
    return inside.split('/').some((segment) => segment.startsWith('.'))
      ? null
      : inside.replace(/\/{2,}/g, '/');
  } catch {
    return null;
  }
}

/**
 * The file behind a path, links followed, or null where it is none or lies outside the root.
 * @param {string} root
 * @param {string} path
 */
async function locate(root, path) {
  try {
    const file = await realpath(join(root, path));
    const top = await realpath(root);
    return file === top || file.startsWith(top + sep) ? { file, stats: await stat(file) } : null;
  } catch {
    return null;
  }
}

/**
 * The policy of a built page, which Kit writes into its head: the header says the same and, as a page cannot say that
 * of itself, that nobody may frame it.
 * @param {string} page
 */
async function policyOf(page) {
  const found = policyPattern.exec(await readFile(page, 'utf8').catch(() => ''));
  return found?.[1] === undefined ? "frame-ancestors 'none'" : `${found[1]}; frame-ancestors 'none'`;
}

/**
 * @param {string} file
 * @param {string} root
 * @returns {Promise<Record<string, string>>}
 */
async function securityHeaders(file, root) {
  const page = extname(file) === '.html' ? file : join(root, 'index.html');
  return {
    'content-security-policy': await policyOf(page),
    'x-content-type-options': 'nosniff',
    'referrer-policy': 'no-referrer',
    'x-frame-options': 'DENY',
    'cross-origin-opener-policy': 'same-origin'
  };
}

/**
 * What to answer to one request.
 * @param {Required<SiteOptions>} site
 * @param {import('node:http').IncomingMessage} request
 * @returns {Promise<Answer>}
 */
async function answer(site, request) {
  const { root, prefix, plain } = site;
  const text = { 'content-type': 'text/plain; charset=utf-8', 'cache-control': 'no-cache' };
  if (request.method !== 'GET' && request.method !== 'HEAD') {
    return { status: 405, headers: { ...text, allow: 'GET, HEAD' }, text: 'Only GET and HEAD\n' };
  }
  const url = request.url ?? '/';
  if (url === prefix.slice(0, -1)) return { status: 307, headers: { ...text, location: prefix } };
  const path = requestedPath(url, prefix);
  let found = path === null ? null : await locate(root, path);
  if (path !== null && found?.stats.isDirectory() === true) {
    if (!path.endsWith('/')) {
      const query = /\?[^#]*/.exec(url)?.[0] ?? '';
      return { status: 307, headers: { ...text, location: encodeURI(prefix + path.slice(1)) + '/' + query } };
    }
    found = await locate(root, `${path}index.html`);
  }
  if (found?.stats.isFile() !== true) return { status: 404, headers: text, text: 'Not found\n' };
  const { file, stats } = found;
  const etag = `"${stats.size.toString(36)}-${Math.trunc(stats.mtimeMs).toString(36)}"`;
  const headers = {
    'content-type': mimeTypes[extname(file)] ?? 'application/octet-stream',
    'cache-control': file.includes(immutableFolder) ? 'public, max-age=31536000, immutable' : 'no-cache',
    etag,
    ...(plain ? {} : await securityHeaders(file, root))
  };
  if (request.headers['if-none-match'] === etag) return { status: 304, headers };
  return { status: 200, headers: { ...headers, 'content-length': String(stats.size) }, file };
}

/**
 * A server of one site; the caller listens and closes.
 * @param {SiteOptions} options
 */
export function createSite({ root, prefix = '/', plain = false }) {
  if (!/^\/(?:.*\/)?$/.test(prefix))
    throw new Error(`prefix: ${prefix}, need a path that starts and ends with /`);
  return createServer((request, response) => {
    answer({ root, prefix, plain }, request)
      .then(({ status, headers, file, text }) => {
        response.writeHead(status, headers);
        if (file === undefined || request.method === 'HEAD') response.end(text);
        else
          createReadStream(file)
            .on('error', () => response.destroy())
            .pipe(response);
      })
      .catch((/** @type {unknown} */ error) => {
        console.error(error);
        response.writeHead(500).end();
      });
  });
}

/**
 * Listens on a port, or on the first free one after it, and gives the port taken.
 * @param {import('node:http').Server} server
 * @param {{port: number, host?: string, tries?: number}} options tries: how many ports to try, 1 for none but `port`
 * @returns {Promise<number>}
 */
export function listen(server, { port, host = '127.0.0.1', tries = 1 }) {
  return new Promise((resolve, reject) => {
    /** @param {NodeJS.ErrnoException} error */
    const failed = (error) => {
      if (error.code !== 'EADDRINUSE' || tries <= 1) reject(error);
      else listen(server, { port: port + 1, host, tries: tries - 1 }).then(resolve, reject);
    };
    server.once('error', failed);
    server.listen(port, host, () => {
      server.removeListener('error', failed);
      const address = server.address();
      resolve(typeof address === 'object' && address !== null ? address.port : port);
    });
  });
}

/** Serves as the command line says: --root, --prefix, --plain, --host, --port (else the first free one from 4180). */
export async function serve() {
  const prefix = option('prefix') ?? '/';
  const host = option('host') ?? '127.0.0.1';
  const wanted = option('port');
  const root = option('root') ?? fileURLToPath(new URL('build', projectUrl));
  const server = createSite({ root, prefix, plain: process.argv.includes('--plain') });
  const port = await listen(server, {
    port: Number(wanted ?? 4180),
    host,
    tries: wanted === undefined ? 200 : 1
  });
  say(`Gaugebook is at http://${host}:${String(port)}${prefix} (Ctrl-C ends it)`);
  const end = () => {
    server.close();
    server.closeAllConnections();
  };
  process.once('SIGINT', end).once('SIGTERM', end);
}

if (isCalledDirectly(import.meta.url)) await serve();
