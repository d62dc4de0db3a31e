import { describe, expect, it } from 'vitest';
import { largestFile, mostColumns } from '#lib/data/intake/file-problem.ts';
import { memoryStore } from '#lib/data/store/index.ts';
import { openWindow } from './window.ts';

const columns = ['ticket', 'time (UTC)', 'station', 'tail', 'volume (L)'];
const line = (ticket: number) => `T${ticket},2031-07-01T10:00:00Z,JARV,Q7-${ticket},${10_000 + ticket}`;
const table = (...tickets: number[]) => `${[columns.join(','), ...tickets.map(line)].join('\n')}\n`;

describe('a limit that is stated', () => {
  it('of 500 MB a file is told in words, without reading the file', async () => {
    expect(largestFile).toBe(500_000_000);
    const { workspace, settled } = openWindow(memoryStore());
    const blob = new Blob([table(1)]);
    let bytesRead = 0;
    const slice = blob.slice.bind(blob);
    Object.defineProperties(blob, {
      size: { value: largestFile + 1 },
      stream: { value: () => Promise.reject(new Error('the file was read')) },
      slice: {
        value: (start = 0, end = largestFile + 1) => {
          bytesRead += end - start;
          return slice(start, end);
        }
      }
    });
    await workspace.addFiles([{ name: 'large.csv', blob }]);
    expect((await settled()).files).toMatchObject([
      { status: 'failed', problem: 'the file is larger than 500 MB' }
    ]);
    expect(bytesRead).toBeLessThan(1e6);
  });

  it('of 1,000 columns a file is told in words, and a file with just as many is used', async () => {
    const wide = (count: number) => {
      const more = count - columns.length;
      const header = [...columns, ...Array.from({ length: more }, (_, i) => `x${i}`)].join(',');
      return `${header}\n${line(1)}${',1'.repeat(more)}\n`;
    };
    expect((await openWindow(memoryStore()).take(wide(mostColumns), 'a.csv')).recordsUsed).toBe(1);
    const { files } = await openWindow(memoryStore()).take(wide(mostColumns + 1), 'a.csv');
    expect(files).toMatchObject([{ status: 'failed', problem: 'the file has more than 1,000 columns' }]);
  });

  it('of 1 MB a record costs that record only, and its line and reason are in the account', async () => {
    const long = (quote: string) =>
      `T9,2031-07-01T10:00:00Z,JARV,${quote}${'Q'.repeat(1_200_000)}${quote},1000`;
    for (const quote of ['', '"']) {
      const { workspace, take } = openWindow(memoryStore());
      const text = [columns.join(','), line(1), long(quote), line(2), line(3)].join('\n');
      const { files, recordsUsed } = await take(text, 'a.csv');
      expect(recordsUsed).toBe(3);
      const account = await workspace.account(files[0]?.id ?? '');
      expect(account?.records.filter(({ fate }) => fate === 'refused')).toMatchObject([
        { line: 3, words: expect.stringMatching(/1 MB|quote/) as unknown }
      ]);
    }
  });

  it('of 5 million records in all takes the whole file back, in words, and leaves the others as they were', async () => {
    const { workspace, take } = openWindow(memoryStore(), { mostRecords: 4 });
    expect((await take(table(1, 2), 'a.csv')).recordsUsed).toBe(2);
    expect((await take(table(3, 4), 'b.csv')).recordsUsed).toBe(4);
    const { files, recordsUsed } = await take(table(5), 'c.csv');
    expect(recordsUsed).toBe(4);
    expect(files[2]).toMatchObject({
      status: 'failed',
      problem: expect.stringContaining('more than 5,000,000 records') as unknown
    });
    await workspace.removeFile(files[0]?.id ?? '');
    expect((await take(table(5), 'c.csv')).recordsUsed).toBe(3);
  });
});
