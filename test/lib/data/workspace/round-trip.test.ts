import fc from 'fast-check';
import Papa from 'papaparse';
import { describe, expect, it } from 'vitest';
import { mergeInto } from '#lib/state/merged-names.ts';
import { memoryStore } from '#lib/data/store/index.ts';
import { openWindow, type Window } from './window.ts';

const header =
  'ticket,time (UTC),station,tail,supplier,volume (L),observed density (kg/m3),sample temperature (C),arrival fuel (kg),departure fuel (kg),remarks';

/** Texts as people and programs leave them: formulas, quotes, line ends, controls, other scripts, apostrophes. */
const hostile = fc.oneof(
  fc.constantFrom(
    '=1+1',
    "'=1",
    '-12.5',
    '@x',
    '"',
    '""',
    'two\nlines',
    'a\r\nb',
    '\u00a0=x',
    '\uff1dx',
    "'",
    'a,b;c\td'
  ),
  fc.string({ unit: 'grapheme', maxLength: 12 })
);
/** A name: what is blank or stands for "missing" is no name. */
const name = fc.constantFrom(
  'Q7-KEA',
  'Q7KEA',
  '=Q7-KEB',
  "'Q7-KEB",
  '__proto__',
  'Ünal & Söhne',
  '<b>x</b>'
);

const row = fc.record({
  tail: name,
  supplier: name,
  volumeL: fc.integer({ min: 500_000, max: 20_000_000 }),
  densityKgM3: fc.integer({ min: 77_000, max: 84_000 }),
  temperatureC: fc.integer({ min: -100, max: 400 }),
  arrivalKg: fc.integer({ min: 100, max: 9_000 }),
  upliftKg: fc.integer({ min: 100, max: 16_000 }),
  remarks: hostile
});

const quoted = (text: string) => `"${text.replaceAll('"', '""')}"`;
const table = (rows: readonly (typeof row extends fc.Arbitrary<infer R> ? R : never)[]) =>
  rows
    .map((each, i) =>
      [
        `000${i}`,
        new Date(Date.UTC(2031, 6, 1 + i, 10)).toISOString(),
        'JARV',
        quoted(each.tail),
        quoted(each.supplier),
        each.volumeL / 1000,
        each.densityKgM3 / 100,
        each.temperatureC / 10,
        each.arrivalKg,
        each.arrivalKg + each.upliftKg,
        quoted(each.remarks)
      ].join(',')
    )
    .reduce((text, line) => `${text}${line}\n`, `${header}\n`);

async function exported({ workspace }: Window): Promise<{ text: string; rows: Record<string, string>[] }> {
  const text = await (await workspace.exportRecords({ filter: {}, order: null, ticket: '' })).text();
  const { data, errors } = Papa.parse<Record<string, string>>(text, { header: true, skipEmptyLines: true });
  expect(errors).toEqual([]);
  return { text, rows: data };
}

/** What names the file a record came from, or its place in it. */
const ofPlace = new Set(['refuelling', 'source_file', 'source_line', 'source_sha256']);
const isCountedAs = (column: string) => column.endsWith('_counted_as');
function without(rows: readonly Record<string, string>[], isLeftOut: (column: string) => boolean) {
  return rows.map((cells) =>
    Object.entries(cells).filter(([column]) => !ofPlace.has(column) && !isLeftOut(column))
  );
}

async function reopened(text: string): Promise<Window> {
  const window = openWindow(memoryStore());
  const { files } = await window.take(text, 'export.csv');
  expect(files.map(({ status, unanswered }) => [status, unanswered])).toEqual([['used', 0]]);
  return window;
}

describe('an export taken into an empty workspace', () => {
  it('gives every field and every computed value again, whatever the texts', async () => {
    let compared = 0;
    await fc.assert(
      fc.asyncProperty(fc.array(row, { minLength: 1, maxLength: 5 }), async (rows) => {
        const first = openWindow(memoryStore());
        const { recordsUsed } = await first.take(table(rows), 'a.csv');
        if (recordsUsed === 0) return;
        compared++;
        const out = await exported(first);
        expect(out.rows).toHaveLength(recordsUsed);
        const again = await exported(await reopened(out.text));
        expect(without(again.rows, () => false)).toEqual(without(out.rows, () => false));
      }),
      { numRuns: 50 }
    );
    expect(compared).toBeGreaterThan(40);
  });

  it('gives names as the source wrote them where a person merged some, and all again once they are merged there', async () => {
    const names = ['Q7-KEA', 'Q7KEA'];
    await fc.assert(
      fc.asyncProperty(fc.array(row, { minLength: 2, maxLength: 5 }), async (rows) => {
        const first = openWindow(memoryStore());
        await first.take(table(rows), 'a.csv');
        const plain = await exported(first);
        const mergedNames = mergeInto([], 'tail', names, 'Q7-KEA');
        const { workspace } = first;
        await workspace.changeSettings({ ...workspace.state.settings, mergedNames });
        const out = await exported(first);
        expect(out.rows.map(({ tail }) => tail)).toEqual(plain.rows.map(({ tail }) => tail));
        const hasMerged = rows.some(({ tail }) => tail === 'Q7KEA');
        expect(out.rows.map((cells) => cells['tail_counted_as'])).toEqual(
          out.rows.map(({ tail }) => (hasMerged ? (tail === 'Q7KEA' ? 'Q7-KEA' : tail) : undefined))
        );

        const again = await reopened(out.text);
        expect(without((await exported(again)).rows, isCountedAs)).toEqual(without(plain.rows, isCountedAs));
        await again.workspace.changeSettings({ ...again.workspace.state.settings, mergedNames });
        expect(without((await exported(again)).rows, () => false)).toEqual(without(out.rows, () => false));
      }),
      { numRuns: 30 }
    );
  });
});
