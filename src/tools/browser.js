/** Finds a Chromium for the browser tests, and gets one where there is none. */
import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { createRequire } from 'node:module';
import { delimiter, join } from 'node:path';
import { isCalledDirectly, runDownload, say } from './process.js';

const commandNames = ['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable'];
const fixedPlaces = [
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  '/Applications/Chromium.app/Contents/MacOS/Chromium'
];
const downloadIdleMs = 60_000;
const packageIdleMs = 120_000;

/** @typedef {{path: string, version: string}} Browser */

/**
 * The browser at a path if it starts and says its version: some systems put a stub of that name on the path.
 * @param {string} path
 * @returns {Browser | null}
 */
function tryBrowser(path) {
  if (!existsSync(path)) return null;
  const told = spawnSync(path, ['--version'], { encoding: 'utf8', timeout: 20_000 });
  const version = /\d+\.[\d.]+/.exec(told.stdout ?? '');
  return told.status === 0 && version !== null ? { path, version: version[0] } : null;
}

/** Where Playwright keeps its own browser, whether it is there or not; null before its package is installed. */
function playwrightPath() {
  try {
    return String(createRequire(import.meta.url)('playwright').chromium.executablePath());
  } catch {
    return null;
  }
}

/** @returns {string[]} */
function candidates() {
  const folders = (process.env['PATH'] ?? '').split(delimiter).filter((folder) => folder !== '');
  const onPath = commandNames.flatMap((name) => folders.map((folder) => join(folder, name)));
  const own = playwrightPath();
  return [...onPath, ...fixedPlaces, ...(own === null ? [] : [own])];
}

/**
 * A Chromium that starts: the one CHROMIUM_PATH names, else one of the system, else Playwright's own; null where
 * there is none. Installs nothing.
 * @returns {Browser | null}
 */
export function findBrowser() {
  const named = process.env['CHROMIUM_PATH'];
  if (named !== undefined && named !== '') {
    const browser = tryBrowser(named);
    if (browser !== null) return browser;
    say(`CHROMIUM_PATH: ${named} does not start, looking elsewhere`);
  }
  for (const path of candidates()) {
    const browser = tryBrowser(path);
    if (browser !== null) return browser;
  }
  return null;
}

const isRoot = process.getuid?.() === 0;
const hasApt = existsSync('/etc/debian_version') && existsSync('/usr/bin/apt-get');

/** @type {{what: string, applies: boolean, get: () => Promise<number>}[]} */
const sources = [
  {
    what: "Playwright's own Chromium (npx playwright install chromium, about 170 MB)",
    applies: true,
    get: () =>
      runDownload(process.execPath, ['node_modules/@playwright/test/cli.js', 'install', 'chromium'], {
        idleMs: downloadIdleMs,
        // The default waits 30 s for each of several mirrors.
        env: { PLAYWRIGHT_DOWNLOAD_CONNECTION_TIMEOUT: '10000' }
      })
  },
  {
    what: "the system's package (apt-get install chromium)",
    applies: isRoot && hasApt,
    get: async () => {
      const options = { idleMs: packageIdleMs, env: { DEBIAN_FRONTEND: 'noninteractive' } };
      const updated = await runDownload('apt-get', ['update'], options);
      if (updated !== 0) say('apt-get update failed, trying the install all the same');
      return runDownload('apt-get', ['install', '-y', '--no-install-recommends', 'chromium'], options);
    }
  }
];

/**
 * Finds a Chromium or gets one, saying what it does; null where neither worked.
 * @returns {Promise<Browser | null>}
 */
export async function ensureBrowser() {
  const found = findBrowser();
  if (found !== null) {
    say(`Browser: ${found.path}, version ${found.version}`);
    return found;
  }
  for (const source of sources.filter(({ applies }) => applies)) {
    say(`Browser: none found. Getting ${source.what}.`);
    await source.get();
    const browser = findBrowser();
    if (browser !== null) {
      say(`Browser: ${browser.path}, version ${browser.version}`);
      return browser;
    }
  }
  say(
    'Browser: none found and none could be installed. The browser tests need Chromium: install it by hand (package ' +
      'chromium or google-chrome, or npx playwright install --with-deps chromium) or set CHROMIUM_PATH to one.'
  );
  return null;
}

if (isCalledDirectly(import.meta.url)) process.exitCode = (await ensureBrowser()) === null ? 1 : 0;
