import { expect, test as base, type BrowserContext } from '@playwright/test';

/** What the watch lets pass, and what it has seen. */
export class Watch {
  readonly faults: string[] = [];
  readonly #origins: Set<string>;
  readonly #expected: RegExp[] = [];

  constructor(context: BrowserContext, origin: string) {
    this.#origins = new Set([origin]);
    context.on('console', (message) => {
      if (!['error', 'warning'].includes(message.type())) return;
      const { url } = message.location();
      this.#note(`console: ${message.text()}${url === '' ? '' : ` (${url})`}`);
    });
    context.on('weberror', (error) => this.#note(`uncaught: ${error.error().message}`));
    context.on('request', (request) => this.#noteRequest(request.url()));
  }

  /** Lets requests to another origin pass: a second server that the test itself started. */
  allowOrigin(origin: string): void {
    this.#origins.add(origin);
  }

  /** Lets messages pass that the test provokes on purpose. */
  expectMessage(pattern: RegExp): void {
    this.#expected.push(pattern);
  }

  /** Takes what was seen so far off the record: the test provoked it and has judged it. */
  take(): string[] {
    return this.faults.splice(0);
  }

  #note(fault: string): void {
    if (!this.#expected.some((pattern) => pattern.test(fault))) this.faults.push(fault);
  }

  #noteRequest(url: string): void {
    // The worker starts from a blob: of the page's own origin, which URL gives as the blob's.
    if (!this.#origins.has(new URL(url).origin)) this.#note(`request outside the origin: ${url}`);
  }
}

/** Every test watches its pages and their workers: an error on the console or a request outside the origin fails it. */
export const test = base.extend<{ watch: Watch }>({
  watch: [
    async ({ context, baseURL }, use) => {
      if (baseURL === undefined) throw new Error('base URL: not set, need the server of the configuration');
      const watch = new Watch(context, new URL(baseURL).origin);
      await use(watch);
      expect(watch.faults, 'console errors and requests outside the origin').toEqual([]);
    },
    { auto: true }
  ]
});

export { expect };
