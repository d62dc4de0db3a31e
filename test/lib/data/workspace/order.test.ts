import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { memoryStore } from '#lib/data/store/index.ts';
import { Workspace } from '#lib/data/workspace/index.ts';

const header =
  'ticket,time (UTC),station,tail,vehicle,volume (L),observed density (kg/m3),sample temperature (C),arrival fuel (kg),departure fuel (kg)';

/** Refuellings a few hours apart, so that no two tickets are one refuelling by the order in which they stand. */
const lines = fc
  .array(
    fc.record({
      station: fc.constantFrom('JARV', 'JBEL'),
      tail: fc.constantFrom('Q7-KEA', 'Q7-LOB'),
      vehicle: fc.constantFrom('JARV-H1', 'JBEL-H1'),
      volumeL: fc.integer({ min: 500, max: 20_000 }),
      arrivalKg: fc.integer({ min: 100, max: 9_000 }),
      upliftKg: fc.integer({ min: 100, max: 16_000 })
    }),
    { minLength: 2, maxLength: 8 }
  )
  .map((rows) =>
    rows.map(({ station, tail, vehicle, volumeL, arrivalKg, upliftKg }, i) => {
      const time = new Date(Date.UTC(2031, 6, 1 + i, 10)).toISOString();
      return `T${i},${time},${station},${tail},${vehicle},${volumeL},800,15,${arrivalKg},${arrivalKg + upliftKg}`;
    })
  );

/** Lines, the same in another order, and where to cut them into two files. */
const shuffled = lines.chain((all) =>
  fc.record({
    all: fc.constant(all),
    other: fc.shuffledSubarray(all, { minLength: all.length, maxLength: all.length }),
    cut: fc.integer({ min: 1, max: all.length - 1 })
  })
);

/** Cells of a line of the export: commas stand inside quotes only. */
function cellsOf(row: string): string[] {
  return row.match(/("[^"]*"|[^,"]*)(,|$)/g)?.map((cell) => cell.replace(/,$/, '')) ?? [];
}

/** Every record as it is exported, without where it stood in which file, in the order of tickets. */
async function exported(files: readonly (readonly string[])[]): Promise<string[]> {
  const workspace = new Workspace({
    store: memoryStore(),
    program: 'Gaugebook test',
    now: () => 0,
    pause: () => Promise.resolve(),
    onState: () => undefined,
    demo: {
      seed: 1,
      truth: () => [],
      stories: () => [],
      async *files() {},
      answers: () => [],
      settings: (before) => before,
      settingsWithout: (after) => after
    }
  });
  await workspace.addFiles(
    files.map((rows, i) => ({ name: `${i}.csv`, blob: new Blob([`${[header, ...rows].join('\n')}\n`]) }))
  );
  const isBusy = () =>
    workspace.state.files.some(({ status }) => ['waiting', 'inspecting', 'reading'].includes(status));
  while (isBusy()) await new Promise((resolve) => setTimeout(resolve, 0));
  await workspace.useAllFiles();
  while (isBusy()) await new Promise((resolve) => setTimeout(resolve, 0));
  const text = await (await workspace.exportRecords({ filter: {}, order: null, ticket: '' })).text();
  const [head = '', ...rows] = text.trimEnd().split('\r\n');
  // A refuelling is named by where its first ticket stands.
  const isPlace = (name: string) => name.startsWith('source_') || name === 'refuelling';
  const kept = head.split(',').flatMap((name, i) => (isPlace(name) ? [] : [i]));
  return rows
    .map((row) => cellsOf(row))
    .map((cells) => kept.map((i) => cells[i]).join(','))
    .sort();
}

describe('the order of records and files', () => {
  it('changes nothing that is computed of a record', async () => {
    await fc.assert(
      fc.asyncProperty(shuffled, async ({ all, other, cut }) => {
        const expected = await exported([all]);
        expect(expected).toHaveLength(all.length);
        expect(await exported([other])).toEqual(expected);
        expect(await exported([other.slice(cut), other.slice(0, cut)])).toEqual(expected);
      }),
      { numRuns: 25 }
    );
  });
});
