import { describe, expect, it } from 'vitest';
import { memoryStore } from '#lib/data/store/index.ts';
import { openWindow, type Window } from './window.ts';

const header = 'ticket,time (UTC),station,tail,volume (L)';
/** Above 4 MB a file is hashed and kept behind all other work. */
const tables = [
  ['small', 3],
  ['large', 90_000]
] as const;

function tableOf(lines: number): string {
  const rows = Array.from(
    { length: lines },
    (_, i) => `T${i},2031-07-01T10:00:00Z,JARV,Q7-${i},${10_000 + i}`
  );
  return `${[header, ...rows].join('\n')}\n`;
}

describe.each(tables)('a %s file', (_, lines) => {
  const text = tableOf(lines);

  it('that is stopped when all of it is read is taken back, from the pages and from what is kept', async () => {
    const store = memoryStore();
    let window: Window | null = null;
    window = openWindow(store, {
      pause: async () => {
        const file = window?.workspace.state.files[0];
        if (file?.status === 'reading' && file.counts !== null) await window?.workspace.cancelFile(file.id);
      }
    });
    const { files, recordsUsed } = await window.take(text, 'a.csv');
    expect(files).toMatchObject([{ status: 'failed', problem: 'reading was stopped' }]);
    expect(recordsUsed).toBe(0);
    expect(await store.files()).toEqual([]);
  });

  it('that is not stopped is used and kept', async () => {
    const store = memoryStore();
    const { recordsUsed } = await openWindow(store).take(text, 'a.csv');
    expect(recordsUsed).toBe(lines);
    expect(await store.files()).toMatchObject([{ name: 'a.csv' }]);
  });
});
