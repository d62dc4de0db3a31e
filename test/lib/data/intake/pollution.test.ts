import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { expectBalance } from './balance.ts';
import { runIntake, textFile } from './run-intake.ts';
import { isoNotation, record, tableLines, valuesOf } from './tables.ts';

/** A fault in a line of a table, as tables get them on their way. */
type Pollution = (line: string) => string;
const pollutions: readonly Pollution[] = [
  (line) => `${line},extra`,
  (line) => line.replace(',', ''),
  (line) => line.slice(0, line.lastIndexOf(',')),
  (line) => `"${line}`,
  (line) => line.replace(/,([^,]*)$/, ',"$1'),
  (line) => line.replace(/\d{4}-\d{2}-\d{2}/, '2024-02-31'),
  (line) => line.replace(/,([^,]*)$/, ',1e5'),
  (line) => line.replace(/,Q7-[A-Z]+/, ',')
];

describe('a polluted table', () => {
  it('keeps every untouched record, names every touched one, and adds up', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.array(record, { minLength: 6, maxLength: 14 }),
        fc.array(fc.tuple(fc.nat(13), fc.constantFrom(...pollutions)), { minLength: 1, maxLength: 3 }),
        fc.constantFrom('', '\n', 'Uplift list\n\n'),
        async (rows, faults, preamble) => {
          const [header = '', ...lines] = tableLines(rows, isoNotation);
          const touched = new Map(faults.map(([at, pollute]) => [at % lines.length, pollute]));
          // The first records stay good, so that the header and the kind of each column are plain.
          for (const at of [0, 1, 2]) touched.delete(at);
          const body = lines.map((line, i) => touched.get(i)?.(line) ?? line);
          const run = await runIntake(textFile(`${preamble}${[header, ...body].join('\n')}\n`));
          expect(run.asks).toEqual([]);
          expectBalance(run);
          const used = run.rows.map(({ values }) => values);
          const untouched = rows.filter((_, i) => !touched.has(i)).map(valuesOf);
          expect(used).toEqual(untouched);
          // A quote that is never closed takes a broken line behind it into its record, which spans both.
          const refused = run.account?.records.filter(({ fate }) => fate === 'refused').length ?? 0;
          const counts = run.account?.counts;
          const swallowed = (counts?.lines ?? 0) - (counts?.records ?? 0);
          expect(refused + swallowed).toBe(touched.size);
        }
      ),
      { numRuns: 150 }
    );
  });
});

/** Lines that are no record, as they get between the records of a table. */
const strays = (header: string): readonly string[] => ['', ',,,,,', header, 'End of page 3'];

describe('a table with lines between its records that are none', () => {
  it('keeps every record and skips or refuses each such line', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.array(record, { minLength: 5, maxLength: 12 }),
        fc.array(fc.tuple(fc.nat(11), fc.nat(3)), { minLength: 1, maxLength: 3 }),
        async (rows, places) => {
          const [header = '', ...lines] = tableLines(rows, isoNotation);
          const body = lines.flatMap((line, i) => [
            line,
            ...places.filter(([at]) => at === i && i > 2).map(([, which]) => strays(header)[which] ?? '')
          ]);
          const run = await runIntake(textFile(`${[header, ...body].join('\n')}\n`));
          expectBalance(run);
          expect(run.rows.map(({ values }) => values)).toEqual(rows.map(valuesOf));
          const counts = run.account?.counts;
          expect((counts?.skipped ?? 0) + (counts?.refused ?? 0)).toBe(body.length - lines.length);
        }
      ),
      { numRuns: 60 }
    );
  });
});

describe('a table that is cut off at any byte', () => {
  it('keeps every record before the cut; what is left of the last is refused, or is read from what is there', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.array(record, { minLength: 4, maxLength: 8 }),
        fc.double({ min: 0.5, max: 1, noNaN: true }),
        async (rows, share) => {
          const lines = tableLines(rows, isoNotation);
          const text = lines.join('\n');
          const cut = text.slice(
            0,
            Math.max(lines.slice(0, 4).join('\n').length, Math.floor(text.length * share))
          );
          const run = await runIntake(textFile(cut));
          expectBalance(run);
          const whole = cut.split('\n').length - 2;
          expect(run.rows.slice(0, whole).map(({ values }) => values)).toEqual(
            rows.slice(0, whole).map(valuesOf)
          );
          const rest = cut.split('\n').at(-1) ?? '';
          const isRead = run.rows.length === whole + 1;
          // Cut within the last cell it cannot be told from a whole record; cut before that it is named.
          if (rest.split(',').length < 6 && rest !== '')
            expect([isRead, run.account?.counts.refused]).toEqual([false, 1]);
        }
      ),
      { numRuns: 80 }
    );
  });
});

describe('a long cell', () => {
  // A grouped-number pattern with nested repetition takes seconds on 28 digits; scanners written by hand do not.
  const slow = ['1,', '1.', ' 1', '1 1 ', '-', '0', '9.9,9', "1'", '1/1/', '2024-', '10:', 'a'];

  it.each(slow)('of %j takes time in proportion to its length at most', async (part) => {
    const timeOf = async (length: number) => {
      const cell = part.repeat(Math.ceil(length / part.length)).slice(0, length);
      const rows = `A,"${cell}",J,Q,"${cell}"\n`.repeat(3);
      const text = `Ticket,End (UTC),Station,Tail,Volume (L)\nA,2024-03-04T10:00Z,J,Q,8000\n${rows}`;
      let best = Infinity;
      for (let i = 0; i < 3; i++) {
        const start = performance.now();
        await runIntake(textFile(text));
        best = Math.min(best, performance.now() - start);
      }
      return best;
    };
    const short = await timeOf(1_000);
    // Thirty times the length: a square would take 900 times as long, a power many more.
    expect(await timeOf(30_000)).toBeLessThan(Math.max(150 * short, 300));
  });
});
