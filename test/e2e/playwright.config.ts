import { fileURLToPath } from 'node:url';
import { defineConfig } from '@playwright/test';
import { findBrowser } from '../../src/tools/browser.js';
import { isBuildCurrent } from '../../src/tools/build.js';
import { createSite, listen } from '../../src/tools/serve.js';

const projectFolder = fileURLToPath(new URL('../..', import.meta.url));

/** A port that was free a moment ago. */
async function freePort(): Promise<number> {
  const server = createSite({ root: projectFolder });
  const port = await listen(server, { port: 0 });
  await new Promise((resolve) => server.close(resolve));
  return port;
}

// Playwright reads this file again in every worker: what the first reading found must hold for them too.
const port = (process.env['GAUGEBOOK_E2E_PORT'] ??= String(await freePort()));
const executablePath = (process.env['CHROMIUM_PATH'] ??= findBrowser()?.path ?? '');
if (executablePath === '') throw new Error('browser: none found, run node src/tools/browser.js');
if (process.env['TEST_WORKER_INDEX'] === undefined && !isBuildCurrent()) {
  console.warn('build/ is older than the sources: these tests judge it as it is (npm run build renews it)');
}

export default defineConfig({
  testDir: '.',
  outputDir: '../../test-results/e2e',
  forbidOnly: process.env['CI'] !== undefined,
  fullyParallel: true,
  workers: 2,
  retries: 0,
  timeout: 30_000,
  globalTimeout: 10 * 60_000,
  reporter: 'list',
  use: {
    baseURL: `http://127.0.0.1:${port}/`,
    // Neither is the language or the zone of the data: whatever leaks from them into a page fails a test.
    locale: 'de-DE',
    timezoneId: 'America/St_Johns',
    screenshot: 'only-on-failure',
    trace: 'retain-on-failure',
    launchOptions: { executablePath, args: process.getuid?.() === 0 ? ['--no-sandbox'] : [] }
  },
  webServer: {
    // No security headers: the policy under test is the one the pages carry themselves.
    command: `node src/tools/serve.js --plain --port ${port}`,
    cwd: projectFolder,
    url: `http://127.0.0.1:${port}/`,
    reuseExistingServer: false
  }
});
