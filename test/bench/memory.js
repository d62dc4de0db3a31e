/** Resident memory of the renderers of one browser. */
import { existsSync, readFileSync } from 'node:fs';
import { spawnSync } from 'node:child_process';

/** @param {number} pid */
function residentBytes(pid) {
  const status = `/proc/${pid}/statm`;
  if (existsSync(status)) return Number(readFileSync(status, 'utf8').split(' ')[1]) * 4096;
  return Number(spawnSync('ps', ['-o', 'rss=', '-p', String(pid)], { encoding: 'utf8' }).stdout) * 1024;
}

/** Watches the largest renderer of a browser, ten times a second. */
export class MemoryWatch {
  #session;
  /** @type {NodeJS.Timeout | null} */
  #timer = null;
  /** @type {number[]} */
  #pids = [];
  peakBytes = 0;

  /** @param {import('playwright').CDPSession} session of the browser */
  constructor(session) {
    this.#session = session;
  }

  async start() {
    const { processInfo } = await this.#session.send('SystemInfo.getProcessInfo');
    this.#pids = processInfo.filter(({ type }) => type === 'renderer').map(({ id }) => id);
    this.peakBytes = 0;
    this.#timer = setInterval(() => (this.peakBytes = Math.max(this.peakBytes, this.now())), 100);
  }

  /** Bytes at this moment. */
  now() {
    try {
      return Math.max(0, ...this.#pids.map(residentBytes));
    } catch {
      // A renderer that is gone holds nothing.
      return 0;
    }
  }

  stop() {
    if (this.#timer !== null) clearInterval(this.#timer);
  }
}
