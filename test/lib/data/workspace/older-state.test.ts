import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  defaultSettings,
  exampleLimits,
  higherAmountLimits,
  type Settings
} from '#lib/data/settings/index.ts';
import { memoryStore, type Store, type StoredFile } from '#lib/data/store/index.ts';
import { openWindow } from './window.ts';

const header =
  'ticket,time (UTC),station,tail,volume (L),observed density (kg/m3),arrival fuel (kg),departure fuel (kg)';
const line = fc
  .record({
    tail: fc.constantFrom('Q7-KEA', 'Q7-KEB'),
    volumeL: fc.integer({ min: 500, max: 20_000 }),
    upliftKg: fc.integer({ min: 400, max: 16_000 })
  })
  .map(
    ({ tail, volumeL, upliftKg }) =>
      (index: number) =>
        `T${index},2031-07-0${index + 1}T10:00:00Z,JARV,${tail},${volumeL},800,2000,${2000 + upliftKg}`
  );
const text = fc
  .array(line, { minLength: 1, maxLength: 6 })
  .map((lines) => `${[header, ...lines.map((of, index) => of(index))].join('\n')}\n`);

/** Settings as a person may have left them. */
const settings: fc.Arbitrary<Settings> = fc
  .record({
    limits: fc.subarray([exampleLimits, higherAmountLimits], { minLength: 1 }),
    joinMinutes: fc.integer({ min: 0, max: 240 }),
    countEstimated: fc.boolean()
  })
  .map(({ limits, joinMinutes, countEstimated }) => ({
    ...defaultSettings,
    limitSets: limits,
    method: { ...defaultSettings.method, joinMinutes, countEstimated }
  }));

/** What an older version may have left: fields it did not know are not there, and columns in a form of its own. */
const older = fc.record({
  settings: fc.subarray(['types', 'vehicles', 'stations', 'events', 'mergedNames'] as const),
  method: fc.subarray(['countEstimated', 'arithmetic'] as const),
  limits: fc.subarray(['orderedKg', 'certificateKgM3', 'imbalanceKg'] as const),
  preferences: fc.subarray(['undone', 'recovered'] as const),
  hasColumns: fc.boolean(),
  hasAccount: fc.boolean()
});
type Older = typeof older extends fc.Arbitrary<infer O> ? O : never;

function without<T extends object>(whole: T, keys: readonly (keyof T & string)[]): T {
  const gone: readonly string[] = keys;
  return Object.fromEntries(Object.entries(whole).filter(([key]) => !gone.includes(key))) as T;
}

function asOlder(store: Store, lacks: Older): Store {
  return {
    ...store,
    settings: async () => {
      const whole = await store.settings();
      return whole === null
        ? null
        : {
            ...without(whole, lacks.settings),
            method: without(whole.method, lacks.method),
            limitSets: whole.limitSets.map((set) => without(set, lacks.limits))
          };
    },
    preferences: async () => {
      const whole = await store.preferences();
      return whole === null ? null : without(whole, lacks.preferences);
    },
    columns: (id) => (lacks.hasColumns ? store.columns(id) : Promise.resolve(null)),
    files: async () =>
      (await store.files()).map((file) =>
        lacks.hasAccount ? file : { ...file, account: { format: 'account/0' } }
      )
  };
}

describe('what an older version of the program kept', () => {
  it('opens with the same records, settings and numbers', async () => {
    await fc.assert(
      fc.asyncProperty(text, settings, older, async (file, chosen, lacks) => {
        const store = memoryStore();
        const before = openWindow(store, { program: 'Gaugebook older' });
        // An older version had only its defaults for what it did not know.
        const known = {
          ...chosen,
          method: lacks.method.includes('countEstimated')
            ? { ...chosen.method, countEstimated: defaultSettings.method.countEstimated }
            : chosen.method
        };
        await before.workspace.changeSettings(known);
        await before.workspace.changePreferences({ keepFiles: true, undone: [], recovered: [] });
        await before.take(file, 'a.csv');
        const after = openWindow(asOlder(store, lacks), { openedMs: 1, program: 'Gaugebook newer' });
        await after.workspace.restore();
        const state = await after.settled();
        expect(state.settings).toEqual(known);
        expect(state.recordsUsed).toBe(before.workspace.state.recordsUsed);
        expect(state.dataFingerprint).toBe(before.workspace.state.dataFingerprint);
        const rows = (of: typeof after) =>
          of.workspace.ask('records', {
            filter: {},
            columns: ['ticket', 'tail', 'volume', 'meteredMass', 'discrepancy', 'verdict'],
            order: null,
            ticket: '',
            start: 0,
            count: 100
          });
        expect(rows(after)).toEqual(rows(before));
      }),
      { numRuns: 40 }
    );
  });
});

describe('what a newer version of the program kept', () => {
  const newer: readonly (readonly [string, Partial<StoredFile>, string])[] = [
    ['a layout', { layout: { format: 'layout/2' } }, 'it is left as it is'],
    [
      'a layout, without its source',
      { layout: { format: 'layout/2' }, source: null },
      'choose the file again'
    ]
  ];

  it.each(newer)(
    'in %s of a form not known here is left as it is, and that is said',
    async (_, change, words) => {
      const store = memoryStore();
      const file = `${header}\nT1,2031-07-01T10:00:00Z,JARV,Q7-KEA,10000,800,2000,10000\n`;
      await openWindow(store).take(file, 'a.csv');
      const [kept] = await store.files();
      if (kept === undefined) throw new Error('file: not kept');
      const changed: StoredFile = { ...kept, ...change, account: { format: 'account/2' } };
      await store.putFile(changed);
      const { workspace, take } = openWindow(store, { openedMs: 1 });
      await workspace.restore();
      expect(workspace.state.files).toMatchObject([
        { status: 'failed', problem: expect.stringContaining(words) as unknown }
      ]);
      expect(await store.files()).toEqual([changed]);
      expect((await take(file, 'a.csv')).recordsUsed).toBe(1);
      expect((await store.files()).find(({ id }) => id === kept.id)).toEqual(changed);
    }
  );
});
