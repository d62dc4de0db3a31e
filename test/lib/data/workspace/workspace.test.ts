import fc from 'fast-check';
import { gzipSync, strToU8, zipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { mergeInto, takeApart } from '#lib/state/merged-names.ts';
import { memoryStore, type Store } from '#lib/data/store/index.ts';
import { Workspace, type DemoSource, type FileView, type WorkspaceState } from '#lib/data/workspace/index.ts';

const noDemo: DemoSource = {
  seed: 1,
  truth: () => [],
  async *files() {},
  answers: () => [],
  stories: () => [],
  settings: (before) => before,
  settingsWithout: (after) => after
};

function workspaceOf(store: Store = memoryStore(), program = 'Gaugebook test', startedMs = 0) {
  let state: WorkspaceState | null = null;
  const workspace = new Workspace({
    store,
    program,
    now: () => startedMs,
    pause: () => Promise.resolve(),
    onState: (told) => (state = told),
    demo: noDemo
  });
  /** Waits until no file is being worked on. */
  async function settled(): Promise<WorkspaceState> {
    for (;;) {
      await new Promise((resolve) => setTimeout(resolve, 1));
      const now = workspace.state;
      const busy = now.files.some(({ status }) => ['waiting', 'inspecting', 'reading'].includes(status));
      if (!busy) return state ?? now;
    }
  }
  return { workspace, settled };
}

const header =
  'ticket,time (UTC),station,tail,volume (L),observed density (kg/m3),sample temperature (C),arrival fuel (kg),departure fuel (kg)';
const line = (ticket: string, more: Partial<Record<'tail' | 'volume', string>> = {}) =>
  `${ticket},2031-07-01T10:0${ticket.slice(-1)}:00Z,JARV,${more.tail ?? 'Q7-KEB'},${more.volume ?? '10000'},800,15,${2000 + Number(ticket)},${10050 + Number(ticket)}`;
const table = (...lines: string[]) => `${[header, ...lines].join('\n')}\n`;
const blobOf = (text: string | Uint8Array<ArrayBuffer>) => new Blob([text]);

async function use(text: string, name = 'a.csv', store?: Store) {
  const { workspace, settled } = workspaceOf(store);
  await workspace.restore();
  await workspace.addFiles([{ name, blob: blobOf(text) }]);
  await settled();
  await workspace.useAllFiles();
  return { workspace, state: await settled(), settled };
}

const only = ({ files: [file] }: WorkspaceState): FileView => {
  if (file === undefined) throw new Error('no file');
  return file;
};

describe('the workspace', () => {
  it('charts nothing of a file before a person has said that it is read right', async () => {
    const { workspace, settled } = workspaceOf();
    await workspace.addFiles([{ name: 'a.csv', blob: blobOf(table(line('1'))) }]);
    const state = await settled();
    expect(only(state).status).toBe('asking');
    expect(state.recordsUsed).toBe(0);
  });

  it('takes a file into use, with every record accounted for', async () => {
    const { state, workspace } = await use(table(line('1'), line('2', { volume: '12x' }), line('3')));
    expect(only(state).counts).toMatchObject({ records: 4, header: 1, used: 2, refused: 1 });
    expect(workspace.ask('scope', { filter: {}, without: [] }).refuellings).toBe(2);
  });

  it('counts the same bytes once, under whichever name they come', async () => {
    const { workspace, settled } = await use(table(line('1')));
    await workspace.addFiles([{ name: 'again.csv', blob: blobOf(table(line('1'))) }]);
    const state = await settled();
    expect(state.files.map(({ status }) => status)).toEqual(['used', 'duplicate']);
    expect(state.recordsUsed).toBe(1);
  });

  it('counts one of two files with the same bytes that come together', async () => {
    const { workspace, settled } = workspaceOf();
    const text = table(line('1'), line('2'));
    await workspace.addFiles(['a.csv', 'copy.csv'].map((name) => ({ name, blob: blobOf(text) })));
    await settled();
    await workspace.useAllFiles();
    const state = await settled();
    expect(state.files.map(({ status }) => status)).toEqual(['used', 'duplicate']);
    expect(state.recordsUsed).toBe(2);
  });

  it('counts a copy when the file that had its records is taken away', async () => {
    const { workspace, settled } = await use(table(line('1')));
    await workspace.addFiles([{ name: 'again.csv', blob: blobOf(table(line('1'))) }]);
    const [first] = (await settled()).files;
    await workspace.removeFile(first?.id ?? '');
    const state = await settled();
    expect(state.files.map(({ name, status }) => [name, status])).toEqual([['again.csv', 'used']]);
    expect(state.recordsUsed).toBe(1);
  });

  it('reads the next file with the same header at once, and sets aside what was there already', async () => {
    const { workspace, settled } = await use(table(line('1'), line('2')));
    await workspace.addFiles([{ name: 'next.csv', blob: blobOf(table(line('2'), line('3'))) }]);
    const state = await settled();
    expect(state.files[1]).toMatchObject({ status: 'used', remembered: true });
    expect(state.files[1]?.counts).toMatchObject({ records: 3, used: 1, setAside: 1 });
    expect(state.recordsUsed).toBe(3);
  });

  it('opens what is packed, and says of each file in an archive what it is', async () => {
    const { workspace, settled } = workspaceOf();
    await workspace.addFiles([
      { name: 'one.csv.gz', blob: blobOf(gzipSync(strToU8(table(line('1'))))) },
      {
        name: 'month.zip',
        blob: blobOf(
          zipSync({
            'a.csv': strToU8(table(line('2'))),
            'b.csv': strToU8(table(line('3'))),
            'c.pdf': strToU8('%PDF-1.7 not a table')
          })
        )
      }
    ]);
    await settled();
    await workspace.useAllFiles();
    const state = await settled();
    expect(state.recordsUsed).toBe(3);
    expect(state.files.filter(({ status }) => status === 'failed').map(({ problem }) => problem)).toEqual([
      expect.stringContaining('PDF')
    ]);
  });

  it('keep the records of a file in use where the browser cannot keep it, and say so', async () => {
    const full: Store = {
      ...memoryStore(),
      putFile: () => Promise.reject(new DOMException('', 'AbortError'))
    };
    const { state } = await use(table(line('11'), line('12')), 'a.csv', full);
    expect(state.recordsUsed).toBe(2);
    expect(state.files).toMatchObject([
      { status: 'used', problem: expect.stringContaining('could not keep') as unknown }
    ]);
  });

  it('lists a file that was counted once after a reload too, and counts it when the other goes', async () => {
    const store = memoryStore();
    const { workspace, settled } = await use(table(line('1')), 'a.csv', store);
    await workspace.addFiles([{ name: 'again.csv', blob: blobOf(table(line('1'))) }]);
    await settled();
    const later = workspaceOf(store);
    await later.workspace.restore();
    expect(later.workspace.state.files).toMatchObject([
      { name: 'a.csv', status: 'used' },
      { name: 'again.csv', status: 'duplicate', problem: 'the same file as a.csv: counted once' }
    ]);
    const [first] = later.workspace.state.files;
    await later.workspace.removeFile(first?.id ?? '');
    expect(await later.settled()).toMatchObject({
      files: [{ name: 'again.csv', status: 'used' }],
      recordsUsed: 1
    });
  });

  it('finds everything again from the store, the account and the numbers too', async () => {
    const store = memoryStore();
    const before = await use(table(line('1'), line('2')), 'a.csv', store);
    const { workspace } = workspaceOf(store);
    await workspace.restore();
    expect(workspace.state.recordsUsed).toBe(2);
    expect(workspace.state.dataFingerprint).toBe(before.state.dataFingerprint);
    expect(workspace.ask('discrepancy', { filter: {}, by: 'station' })).toEqual(
      before.workspace.ask('discrepancy', { filter: {}, by: 'station' })
    );
  });

  it('rebuilds the columns from the sources where another version of the program wrote them', async () => {
    const store = memoryStore();
    await use(table(line('1'), line('2')), 'a.csv', store);
    const { workspace } = workspaceOf(store, 'Gaugebook later');
    await workspace.restore();
    expect(workspace.state.files.map(({ status }) => status)).toEqual(['used']);
    expect(workspace.state.recordsUsed).toBe(2);
  });

  it('keeps no trace of a file that is removed', async () => {
    const store = memoryStore();
    const { workspace, state } = await use(table(line('1')), 'a.csv', store);
    await workspace.removeFile(only(state).id);
    expect(workspace.state.files).toEqual([]);
    expect(await store.files()).toEqual([]);
    expect(await store.columns(only(state).id)).toBeNull();
    expect(workspace.ask('names', { field: 'tail' }).names).toEqual([]);
  });

  it('keeps no source where the person chose so', async () => {
    const store = memoryStore();
    const { workspace, settled } = workspaceOf(store);
    await workspace.changePreferences({ keepFiles: false, undone: [], recovered: [] });
    await workspace.addFiles([{ name: 'a.csv', blob: blobOf(table(line('1'))) }]);
    await settled();
    await workspace.useAllFiles();
    await settled();
    expect((await store.files()).map(({ source }) => source)).toEqual([null]);
  });

  it('gives the same fingerprint for the same files in any order', async () => {
    const first = blobOf(table(line('1')));
    const second = blobOf(table(line('2')));
    const prints = [];
    for (const blobs of [
      [first, second],
      [second, first]
    ]) {
      const { workspace, settled } = workspaceOf();
      await workspace.addFiles(blobs.map((blob, i) => ({ name: `${i}.csv`, blob })));
      await settled();
      await workspace.useAllFiles();
      prints.push((await settled()).dataFingerprint);
    }
    expect(prints[0]).toMatch(/^[0-9a-f]{64}$/);
    expect(prints[0]).toBe(prints[1]);
  });

  it('gives the same fingerprint after a reload', async () => {
    const store = memoryStore();
    const { state } = await use(table(line('1')), 'a.csv', store);
    const { workspace } = workspaceOf(store);
    await workspace.restore();
    expect(workspace.state.dataFingerprint).toBe(state.dataFingerprint);
  });

  it('hands out the raw line of a record and, for mending, the records that were not used', async () => {
    const { workspace, state } = await use(table(line('1'), line('2', { volume: '12x' })));
    const address = `${(only(state).sha256 ?? '').slice(0, 8)}-2`;
    expect((await workspace.sourceLines(address))?.text).toBe(line('1'));
    const refused = await (await workspace.refusedRecords(only(state).id))?.text();
    expect(refused?.split('\r\n')[0]).toBe(`${header},line in the file,not used because`);
    expect(refused?.split('\r\n')[1]).toContain('2,2031-07-01T10:02:00Z,JARV,Q7-KEB,12x');
    expect(refused?.split('\r\n')[1]).toMatch(/,3,volume .*12x$/);
  });

  it('goes on with the next file when one cannot be read', async () => {
    const { workspace, settled } = workspaceOf();
    await workspace.addFiles([
      { name: 'empty.csv', blob: blobOf('') },
      { name: 'good.csv', blob: blobOf(table(line('1'))) }
    ]);
    const state = await settled();
    expect(state.files.map(({ status }) => status)).toEqual(['failed', 'asking']);
  });

  it('offers spellings that look alike, and merges none', async () => {
    const { state } = await use(
      table(line('1'), line('2', { tail: 'Q7KEB' }), line('3', { tail: 'Q7-KEC' }))
    );
    expect(state.lookAlikes).toEqual([{ field: 'tail', names: ['Q7-KEB', 'Q7KEB'] }]);
    expect(state.recordsUsed).toBe(3);
  });

  it('counts look-alikes as one only where a person says so, and takes them apart again', async () => {
    const store = memoryStore();
    const { workspace } = await use(
      table(line('1'), line('2', { tail: 'Q7KEB' }), line('3', { tail: 'Q7-KEC' })),
      'a.csv',
      store
    );
    const tails = (of: Workspace) =>
      of.ask('names', { field: 'tail' }).names.map(({ name, refuellings }) => `${name} ${refuellings}`);
    const before = tails(workspace);
    expect(before).toEqual(['Q7-KEB 1', 'Q7-KEC 1', 'Q7KEB 1']);
    const print = workspace.state.resultFingerprint;
    const merged = mergeInto([], 'tail', ['Q7-KEB', 'Q7KEB'], 'Q7-KEB');
    await workspace.changeSettings({ ...workspace.state.settings, mergedNames: merged });
    expect(tails(workspace)).toEqual(['Q7-KEB 2', 'Q7-KEC 1']);
    expect(workspace.state.resultFingerprint).not.toBe(print);

    const later = workspaceOf(store).workspace;
    await later.restore();
    expect(tails(later)).toEqual(['Q7-KEB 2', 'Q7-KEC 1']);
    expect(later.state.lookAlikes).toEqual([{ field: 'tail', names: ['Q7-KEB', 'Q7KEB'] }]);

    const apart = takeApart(merged, 'tail', ['Q7-KEB', 'Q7KEB']);
    await later.changeSettings({ ...later.state.settings, mergedNames: apart });
    expect(tails(later)).toEqual(before);
    expect(later.state.resultFingerprint).toBe(print);
  });

  it('keeps names merged, and put back rightly, when another file comes and goes', async () => {
    const { workspace, settled } = await use(table(line('1'), line('2', { tail: 'Q7KEB' })));
    const mergedNames = mergeInto([], 'tail', ['Q7-KEB', 'Q7KEB'], 'Q7KEB');
    await workspace.changeSettings({ ...workspace.state.settings, mergedNames });
    await workspace.addFiles([
      { name: 'b.csv', blob: blobOf(table(line('3'), line('4', { tail: 'Q7-KED' }))) }
    ]);
    await settled();
    await workspace.useAllFiles();
    await settled();
    const tails = () => workspace.ask('names', { field: 'tail' }).names.map(({ name }) => name);
    expect(tails()).toEqual(['Q7-KED', 'Q7KEB']);
    await workspace.removeFile(workspace.state.files[0]?.id ?? '');
    expect(tails()).toEqual(['Q7-KED', 'Q7KEB']);
    await workspace.changeSettings({ ...workspace.state.settings, mergedNames: [] });
    expect(tails()).toEqual(['Q7-KEB', 'Q7-KED']);
  });

  it('keeps a note on a finding through a reload', async () => {
    const store = memoryStore();
    const note = {
      address: 'moved tail Q7-KEB',
      text: 'gauge job ordered',
      state: 'closed' as const,
      timeMs: 1
    };
    await workspaceOf(store).workspace.keepNote(note);
    const { workspace } = workspaceOf(store);
    await workspace.restore();
    expect(workspace.state.notes).toEqual([note]);
  });
});

describe('a browser whose storage is at fault', () => {
  const fails = () => Promise.reject(new DOMException('', 'QuotaExceededError'));
  const broken: readonly (readonly [string, Partial<Store>])[] = [
    [
      'refuses all writes',
      { putFile: fails, putColumns: fails, putLayout: fails, removeFile: fails, clear: fails }
    ],
    ['refuses settings, choices and notes', { putSettings: fails, putPreferences: fails, putNote: fails }],
    [
      'finds nothing again',
      { files: fails, settings: fails, preferences: fails, notes: fails, columns: fails, layout: fails }
    ],
    ['cannot say how much it has', { state: fails, usedBytes: fails }],
    ['keeps files but not their columns', { putColumns: fails }]
  ];

  it.each(broken)('that %s goes on with what is in hand, and says so', async (_, faults) => {
    const { workspace, settled } = workspaceOf({ ...memoryStore(), ...faults });
    await workspace.restore();
    await workspace.addFiles([{ name: 'a.csv', blob: blobOf(table(line('1'), line('2'))) }]);
    await settled();
    await workspace.useAllFiles();
    expect((await settled()).recordsUsed).toBe(2);
    const { settings, preferences, files } = workspace.state;
    await workspace.changeSettings({ ...settings, method: { ...settings.method } });
    await workspace.changePreferences({ ...preferences, keepFiles: false });
    await workspace.keepNote({ address: 'x', text: 'y', state: 'seen', timeMs: 1 });
    expect(workspace.state.preferences.keepFiles).toBe(false);
    expect(workspace.state.storage.hasFault || workspace.state.files[0]?.problem !== null).toBe(true);
    await workspace.removeFile(files[0]?.id ?? '');
    expect(workspace.state.recordsUsed).toBe(0);
    await workspace.forgetEverything();
    expect(workspace.state.files).toEqual([]);
  });

  it('shows nothing of a file whose columns were half written: they are read again from the source', async () => {
    const kept = memoryStore();
    await use(table(line('1'), line('2')), 'a.csv', { ...kept, putColumns: fails });
    const { workspace } = workspaceOf(kept);
    await workspace.restore();
    expect(workspace.state.files).toMatchObject([{ status: 'used' }]);
    expect(workspace.state.recordsUsed).toBe(2);
  });
});

describe('undo', () => {
  it('takes back a file and gives the numbers of before, in any order of coming and going', async () => {
    const alone = await use(table(line('1'), line('2')), 'a.csv');
    const { workspace, settled } = await use(table(line('3'), line('4')), 'b.csv');
    await workspace.addFiles([{ name: 'a.csv', blob: blobOf(table(line('1'), line('2'))) }]);
    await settled();
    await workspace.useAllFiles();
    await settled();
    expect(workspace.state.recordsUsed).toBe(4);
    await workspace.removeFile(workspace.state.files.find(({ name }) => name === 'b.csv')?.id ?? '');
    expect(workspace.state.recordsUsed).toBe(2);
    expect(workspace.state.dataFingerprint).toBe(alone.state.dataFingerprint);
    expect(workspace.ask('discrepancy', { filter: {}, by: 'tail' })).toEqual(
      alone.workspace.ask('discrepancy', { filter: {}, by: 'tail' })
    );
  });
});

describe('records that were not used', () => {
  it('come back mended: downloaded, put right and taken in, none is refused', async () => {
    const { workspace, state, settled } = await use(
      table(line('1'), line('2', { volume: '12x' }), line('3'))
    );
    const text = await (await workspace.refusedRecords(only(state).id))?.text();
    await workspace.addFiles([{ name: 'mended.csv', blob: blobOf((text ?? '').replace('12x', '12000')) }]);
    await settled();
    await workspace.useAllFiles();
    const after = await settled();
    expect(after.files[1]?.counts).toMatchObject({ used: 1, refused: 0 });
    expect(after.recordsUsed).toBe(3);
  });
});

describe('records that were not used, in a file to mend', () => {
  it('hold nothing that a spreadsheet would run, and numbers as they were', async () => {
    const evil = line('1').replace('Q7-KEB', '=cmd()').replace('10000', '-12x');
    const { workspace, state } = await use(table(evil, line('2', { volume: '-5' })));
    const text = await (await workspace.refusedRecords(only(state).id))?.text();
    expect(text).toContain(",'=cmd(),'-12x,");
    expect(text).not.toMatch(/(^|,)"?[=@+\t\r]/m);
  });
});

describe('any order of coming, going and reloading', () => {
  const texts = ['1', '2', '3'].map((ticket) => table(line(ticket)));
  const command = fc.oneof(
    fc.record({ kind: fc.constant('add' as const), which: fc.nat(2) }),
    fc.record({ kind: fc.constant('remove' as const), which: fc.nat(2) }),
    fc.constant({ kind: 'reload' as const, which: 0 })
  );

  it('leaves the records of the files in hand, each once, and nothing of the others', async () => {
    await fc.assert(
      fc.asyncProperty(fc.array(command, { maxLength: 9 }), async (commands) => {
        const store = memoryStore();
        let { workspace, settled } = workspaceOf(store);
        const inHand: string[] = [];
        for (const { kind, which } of commands) {
          const name = `${which}.csv`;
          if (kind === 'reload') {
            ({ workspace, settled } = workspaceOf(store));
            await workspace.restore();
          } else if (kind === 'add') {
            await workspace.addFiles([{ name, blob: blobOf(texts[which] ?? '') }]);
            await settled();
            await workspace.useAllFiles();
            inHand.push(name);
          } else {
            const gone = workspace.state.files.find((file) => file.name === name);
            if (gone === undefined) continue;
            await workspace.removeFile(gone.id);
            await settled();
            await workspace.useAllFiles();
            inHand.splice(inHand.indexOf(name), 1);
          }
          const state = await settled();
          expect(state.files.map((file) => file.name).sort()).toEqual(inHand.toSorted());
          expect(state.recordsUsed).toBe(new Set(inHand).size);
          expect(state.files.filter(({ status }) => status === 'used').length).toBe(new Set(inHand).size);
        }
      }),
      { numRuns: 40 }
    );
  });
});

describe('two windows on one store', () => {
  async function take(
    workspace: Workspace,
    settled: () => Promise<WorkspaceState>,
    text: string,
    name: string
  ) {
    await workspace.addFiles([{ name, blob: blobOf(text) }]);
    await settled();
    await workspace.useAllFiles();
    await settled();
  }

  it('lose no file and double none, whatever each takes in', async () => {
    const store = memoryStore();
    const left = workspaceOf(store, undefined, 1);
    const right = workspaceOf(store, undefined, 2);
    await Promise.all([left.workspace.restore(), right.workspace.restore()]);
    await take(left.workspace, left.settled, table(line('1')), 'a.csv');
    await take(right.workspace, right.settled, table(line('2')), 'b.csv');
    await take(left.workspace, left.settled, table(line('3')), 'c.csv');
    await take(right.workspace, right.settled, table(line('3')), 'c.csv');
    const later = workspaceOf(store).workspace;
    await later.restore();
    expect(later.state.recordsUsed).toBe(3);
    expect(later.state.files.map(({ name, status }) => `${name} ${status}`).sort()).toEqual([
      'a.csv used',
      'b.csv used',
      'c.csv duplicate',
      'c.csv used'
    ]);
  });

  it('tell each other that what is kept has changed', async () => {
    let change: () => void = () => undefined;
    const { workspace } = workspaceOf({ ...memoryStore(), watch: (onChange) => (change = onChange) });
    await workspace.restore();
    expect(workspace.state.storage.changedElsewhere).toBe(false);
    change();
    expect(workspace.state.storage.changedElsewhere).toBe(true);
  });
});
