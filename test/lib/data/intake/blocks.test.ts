import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Dictionary, TextColumn } from '#lib/data/columns/index.ts';
import { dayMs, dayOf, newTimeParts, scanTime } from '#lib/data/intake/times/index.ts';
import { ByteTokeniser } from '#lib/data/intake/tokenise/index.ts';
import { cellLook, longestBlock, type RecordBlock, type RecordView } from '#lib/data/intake/tokeniser.ts';
import { runIntake, type IntakeRun } from './run-intake.ts';

const header = [
  'Ticket',
  'End time (UTC)',
  'Station',
  'Tail',
  'Volume (L)',
  'Density (kg/m3)',
  'Arrival fuel (kg)',
  'Departure fuel (kg)',
  'Water test',
  'Remarks'
];

const number = fc.oneof(
  { weight: 8, arbitrary: fc.integer({ min: 0, max: 99_999 }).map(String) },
  { weight: 4, arbitrary: fc.integer({ min: 1, max: 99_999 }).map((n) => (n / 10).toFixed(1)) },
  {
    weight: 3,
    arbitrary: fc.constantFrom(
      '',
      ' ',
      ' 400 ',
      '-',
      'n/a',
      '1,234',
      '1 234.5',
      '0.5',
      '.5',
      '5.',
      '-12',
      '+7',
      '\u2212 3',
      '1e3',
      '400 kg',
      '12O0',
      '00012',
      '1234567890123456',
      '0.1234567890123456',
      '\u00a0',
      'x'
    )
  }
);
const density = fc.integer({ min: 7800, max: 8200 }).map((n) => (n / 10).toFixed(1));
const time = fc
  .tuple(
    fc.integer({ min: 0, max: 700_000 }).map((minutes) => Date.UTC(2025, 0, 1) + minutes * 60_000),
    fc.constantFrom('T', ' '),
    fc.constantFrom('Z', '', ':30Z', ':59', '+02:00')
  )
  .map(([ms, divider, end]) => new Date(ms).toISOString().slice(0, 16).replace('T', divider) + end);
const oddTime = fc.constantFrom(
  '',
  '2025-02-30T10:00Z',
  '2025-13-01T10:00Z',
  '2025-03-1xT10:00Z',
  '2o25-03-12T10:00Z',
  '2025-03-12T24:00Z',
  '2025-03-12T25:00Z',
  '2025-03-12',
  '12 Mar 2025 10:00',
  '1925-03-12T10:00Z'
);
const name = fc.constantFrom('JARV', 'JBEL', ' JCOD', 'JDUM ', 'jarv', '', '-', 'JÉL\u00a0', '"JARV"');
const row = fc
  .tuple(
    fc.stringMatching(/^[A-Z0-9]{0,8}$/),
    fc.oneof({ weight: 9, arbitrary: time }, { weight: 1, arbitrary: oddTime }),
    name,
    name,
    number,
    fc.oneof({ weight: 9, arbitrary: density }, { weight: 1, arbitrary: number }),
    number,
    number,
    fc.constantFrom('passed', 'failed', 'OK', 'traces', '', 'not done', '12'),
    fc.constantFrom('', 'bay "7"', 'été ', ' x', '"a ""b"" c"', '\u3000y')
  )
  .map((cells) => cells.join(';'));
const oddLine = fc.constantFrom(
  '',
  header.join(';'),
  'Vehicle;Start time;Station;Tail;Net volume (L);Fuel temperature (C);Ordered (kg);Defuelled (kg);Visual;Flight',
  'Total;;;;123;;;;;',
  ';;;;;;;;;',
  'end of report',
  'too;few',
  'A1;2025-03-12T10:00Z;JARV;Q7-KEA;100;800.1;100;180;passed;;extra',
  'A2;2025-03-12T10:00Z;JARV;Q7-KEA;100;800.1;100;180;passed;"two\nlines"'
);
const table = fc
  .array(fc.oneof({ weight: 14, arbitrary: row }, { weight: 1, arbitrary: oddLine }), {
    minLength: 1,
    maxLength: 60
  })
  .chain((lines) =>
    fc.record({ isComma: fc.boolean(), isLocal: fc.boolean() }).map(({ isComma, isLocal }) => {
      const text = [header.join(';'), ...lines].join('\n') + '\n';
      const marked = isComma ? text.replaceAll(/(\d)\.(\d)/g, '$1,$2') : text;
      return isLocal ? marked.replaceAll(' (UTC)', '') : marked;
    })
  );

/** UTF-16 is read record by record, by way of papaparse. */
function wide(text: string): Blob {
  return new Blob([Uint16Array.from({ length: text.length }, (_, i) => text.charCodeAt(i))]);
}

/** What a run found, without what is bound to say another thing of another encoding. */
function found({ inspection, asks, account, stopped, rows }: IntakeRun) {
  const { columns, questions, first, last, foreseen, basis } = inspection;
  return {
    looked: { columns, questions, first, last, foreseen, evidence: basis?.evidence },
    asks,
    read: { stopped, rows, counts: account?.counts, records: account?.records, columns: account?.columns }
  };
}

describe('records taken in blocks', () => {
  it('are looked at and read as they are one by one, each odd one in its turn', async () => {
    await fc.assert(
      fc.asyncProperty(table, fc.constantFrom('utc', 'zone:Europe/Berlin'), async (text, zone) => {
        // Repeated, a table is several blocks long.
        const rows = text.slice(text.indexOf('\n') + 1);
        const long = text + rows.repeat(Math.ceil((3 * longestBlock) / (rows.split('\n').length - 1)));
        const blocks = new Blob([long]);
        const answersOf = async (blob: Blob) =>
          (await runIntake(blob)).inspection.questions.flatMap(({ id, readings: [reading] }) =>
            reading === undefined || id === 'encoding'
              ? []
              : [{ id, answer: id === 'zone' ? zone : reading.id }]
          );
        const answers = await answersOf(blocks);
        expect(await answersOf(wide(long))).toEqual(answers);
        const given = { answers, batchRows: 100 };
        expect(found(await runIntake(blocks, given))).toEqual(found(await runIntake(wide(long), given)));
      }),
      { numRuns: 25 }
    );
  });
});

/** Asks every cell of a block by column and by record. */
function expectSame(block: RecordBlock): void {
  const values = new Float64Array(longestBlock);
  const looks = new Uint8Array(longestBlock);
  const codes = new Uint32Array(longestBlock);
  const none = new Uint8Array(longestBlock);
  const parts = newTimeParts();
  const each = (check: (record: RecordView, i: number) => void) => {
    for (let i = 0; i < block.count; i++) check(block.record(i), i);
  };
  for (let cell = 0; cell <= block.cellCount; cell++) {
    block.initials(cell, looks);
    each((record, i) => {
      const first = record.text(cell).charCodeAt(0);
      if (!(first >= 0x80)) expect(looks[i]).toBe(Number.isNaN(first) ? 0 : first);
      else expect(looks[i]).toBeGreaterThanOrEqual(0x80);
    });
    block.empties(cell, looks);
    each((record, i) => expect(looks[i] === 1).toBe(record.isEmpty(cell)));
    for (const decimal of ['.', ','] as const) {
      block.numbers(cell, decimal, values, looks);
      each((record, i) => {
        const own = record.number(cell, { decimal, group: null });
        if (looks[i] === cellLook.empty) expect(record.isEmpty(cell)).toBe(true);
        if (looks[i] === cellLook.digits || looks[i] === cellLook.marked) expect(values[i]).toBe(own);
        const other = record.number(cell, { decimal: decimal === '.' ? ',' : '.', group: null });
        if (looks[i] === cellLook.digits) expect(other).toBe(own);
        if (looks[i] === cellLook.other) expect(values[i]).toBeNaN();
      });
    }
    block.instants(cell, values, looks);
    each((record, i) => {
      scanTime(record.text(cell), parts);
      const value = values[i] ?? NaN;
      if (Number.isNaN(value)) return;
      expect(parts.form).toBe('ymd');
      expect(dayOf(parts, null) * dayMs + parts.clockMs).toBe(value);
      expect(parts.offsetMinutes).toBe(looks[i] === 1 ? 0 : NaN);
    });
    const dictionary = new Dictionary();
    block.codes(cell, dictionary, codes, none);
    each((record, i) => expect(dictionary.text(codes[i] ?? 0)).toBe(record.text(cell).trim()));
    const texts = new TextColumn();
    block.texts(cell, 0, block.count, texts);
    each((record, i) => expect(texts.at(i)).toBe(record.text(cell).trim()));
  }
}

describe('a block', () => {
  it('says of each column what the records say of their cells', async () => {
    await fc.assert(
      fc.asyncProperty(
        table,
        fc.constantFrom('utf-8' as const, 'windows-1252' as const),
        fc.integer({ min: 40, max: 4000 }),
        async (text, encoding, chunkBytes) => {
          let lines = 0;
          const dialect = { delimiter: ';', encoding, bomBytes: 0 };
          await new ByteTokeniser(chunkBytes).read(
            new Blob([text]),
            dialect,
            ({ line, lines: own }) => {
              expect(line).toBe(lines + 1);
              lines += own;
              return true;
            },
            {
              visitBlock: (block) => {
                expect(block.line).toBe(lines + 1);
                expectSame(block);
                lines += block.count;
                return block.count;
              }
            }
          );
          expect(lines).toBe(text.split('\n').length - 1);
        }
      ),
      { numRuns: 60 }
    );
  });

  it('ends the reading where its visitor stops in it', async () => {
    const seen: number[] = [];
    const report = await new ByteTokeniser().read(
      new Blob(['a,b\n1,2\n3,4\n5,6\n']),
      { delimiter: ',', encoding: 'utf-8', bomBytes: 0, cells: 2 },
      () => true,
      {
        visitBlock: (block) => {
          seen.push(block.count);
          return 2;
        }
      }
    );
    expect(seen).toEqual([4]);
    expect(report.lines).toBe(2);
    expect(report.bytes).toBe(8);
  });
});
