import type { Page, Worker } from '@playwright/test';
import { createServer } from 'node:http';
import { listen } from '../../src/tools/serve.js';
import { expect, test } from './support/fixture.ts';
import {
  commonAttempts,
  pageAttempts,
  provokeCommon,
  provokePage,
  provokeRemainder
} from './support/provoke.ts';
import { openSink, type Sink } from './support/sink.ts';

/**
 * "The browser is told to refuse it": every way out is tried on purpose, from the page and from its worker, towards a
 * server that counts what arrives. Return values prove nothing here (a refused beacon returns true).
 */

/** How long to wait for what must not come: on the control page all has arrived some 20 ms after the attempts return. */
const settleMs = 1500;

/** A page of another server, like the site in all but its policy: it has none. */
async function openControl(): Promise<{ url: string; close: () => void }> {
  const server = createServer((_, response) => {
    response
      .writeHead(200, { 'content-type': 'text/html' })
      .end('<!doctype html><title>Control</title><body>');
  });
  const port = await listen(server, { port: 0 });
  const close = () => {
    server.closeAllConnections();
    server.close();
  };
  return { url: `http://127.0.0.1:${port}/`, close };
}

/** A module worker started from a blob, the way the site starts its own. */
async function startBlobWorker(page: Page): Promise<Worker> {
  const started = page.waitForEvent('worker');
  await page.evaluate(() => {
    const url = URL.createObjectURL(new Blob(['export {}'], { type: 'text/javascript' }));
    new Worker(url, { type: 'module' });
  });
  return started;
}

/** The site's own workers: the one that keeps the records, and the one that looks at files. */
async function siteWorkers(page: Page): Promise<Worker[]> {
  await expect.poll(() => page.workers().length).toBe(2);
  return page.workers();
}

async function withSink(judge: (sink: Sink) => Promise<void>): Promise<void> {
  const sink = await openSink();
  try {
    await judge(sink);
  } finally {
    await sink.close();
  }
}

test.beforeEach(({ watch }) => {
  // Attempts are refused loudly, and on the control page answered by a server that has nothing to say.
  watch.expectMessage(/./);
});

test('every attempt reaches the sink from a page and a worker without a policy', async ({ page }) => {
  const control = await openControl();
  await withSink(async (sink) => {
    await page.goto(control.url);
    const worker = await startBlobWorker(page);
    await worker.evaluate(provokeCommon, `${sink.origin}/worker`);
    await page.evaluate(provokeCommon, sink.origin);
    await page.evaluate(provokePage, sink.origin);
    const fromWorker = commonAttempts.map((name) => `worker/${name}`);
    await expect
      .poll(() => sink.arrivals())
      .toEqual([...fromWorker, ...commonAttempts, ...pageAttempts].sort());
  });
  control.close();
});

test('nothing reaches the sink from a page of the site', async ({ page }) => {
  await withSink(async (sink) => {
    await page.goto('');
    await page.evaluate(provokeCommon, sink.origin);
    await page.evaluate(provokePage, sink.origin);
    await page.waitForTimeout(settleMs);
    expect(sink.arrivals()).toEqual([]);
  });
});

test('nothing reaches the sink from the workers of the site', async ({ page }) => {
  await withSink(async (sink) => {
    await page.goto('');
    for (const worker of await siteWorkers(page)) {
      expect(worker.url(), 'a worker loaded by its URL would escape the policy of the page').toMatch(
        /^blob:/
      );
      await worker.evaluate(provokeCommon, sink.origin);
    }
    await page.waitForTimeout(settleMs);
    expect(sink.arrivals()).toEqual([]);
  });
});

test('the page may not even ask its own server', async ({ page }) => {
  await page.goto('');
  const asked = page.evaluate(() => fetch(location.href).then((response) => response.status));
  await expect(asked).rejects.toThrow(/Failed to fetch/);
});

test('only going to another page and WebRTC stay open, as the method page says', async ({ page }) => {
  await withSink(async (sink) => {
    await page.goto('');
    await page.evaluate(provokeRemainder, { sink: sink.origin, udpPort: sink.udpPort });
    await expect.poll(() => sink.arrivals()).toEqual(expect.arrayContaining(['navigate', 'open']));
    await page.waitForTimeout(settleMs);
    expect(sink.arrivals().filter((name) => name !== 'webrtc')).toEqual(['navigate', 'open']);
  });
});
