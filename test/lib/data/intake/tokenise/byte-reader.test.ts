import fc from 'fast-check';
import { describe, expect, it, test } from 'vitest';
import { Dictionary } from '#lib/data/columns/index.ts';
import { ByteTokeniser, PapaTokeniser, tokeniserFor } from '#lib/data/intake/tokenise/index.ts';
import type { Dialect, NumberMarks, Tokeniser } from '#lib/data/intake/tokeniser.ts';
import { brokenTable, hostileBytes, writtenTable } from './arbitrary-tables.ts';
import { collect, countLines, utf8 } from './collect.ts';

const marks: NumberMarks = { decimal: '.', group: ' ' };

/** All that a record view can be asked for, record by record, with the codes and the texts behind them. */
async function askAll(
  tokeniser: Tokeniser,
  bytes: Uint8Array<ArrayBuffer>,
  dialect: Dialect
): Promise<unknown> {
  const dictionaries = Array.from({ length: 3 }, () => new Dictionary());
  const records: unknown[] = [];
  const report = await tokeniser.read(new Blob([bytes]), dialect, (record, fault) => {
    const cells = Array.from({ length: record.cellCount + 1 }, (_, cell) => ({
      text: record.text(cell),
      isEmpty: record.isEmpty(cell),
      wasQuoted: record.wasQuoted(cell),
      number: record.number(cell, marks),
      code: record.code(cell, dictionaries[cell % 3] ?? new Dictionary())
    }));
    records.push({ line: record.line, lines: record.lines, count: record.cellCount, cells, fault });
    return true;
  });
  return { records, report, texts: dictionaries.map((dictionary) => dictionary.texts()) };
}

const plain: Dialect = { delimiter: ',', encoding: 'utf-8', bomBytes: 0 };

describe('the reader for a dialect', () => {
  it('works on bytes where the encoding has one byte for a delimiter', () => {
    expect(tokeniserFor(plain)).toBeInstanceOf(ByteTokeniser);
    expect(tokeniserFor({ ...plain, encoding: 'windows-1252' })).toBeInstanceOf(ByteTokeniser);
    expect(tokeniserFor({ ...plain, encoding: 'utf-16le' })).toBeInstanceOf(PapaTokeniser);
  });

  test.each(['', '"', '\n', '\r', ';;', 'é'])('refuses the delimiter %j', (delimiter) => {
    expect(() => tokeniserFor({ ...plain, delimiter })).toThrow(/^delimiter: .*, need one ASCII character/);
  });

  it('refuses wide encodings where it is told to work on bytes', async () => {
    const read = new ByteTokeniser().read(new Blob([]), { ...plain, encoding: 'utf-16be' }, () => true);
    await expect(read).rejects.toThrow('encoding: utf-16be, need utf-8 or windows-1252');
  });
});

describe('two readers of one file', () => {
  const chunks = fc.integer({ min: 1, max: 64 });

  it('say the same of every cell of a well-formed table, in both encodings', async () => {
    const encodings = fc.constantFrom<Dialect['encoding']>('utf-8', 'windows-1252');
    await fc.assert(
      fc.asyncProperty(writtenTable, encodings, chunks, async ({ text, delimiter }, encoding, chunkBytes) => {
        const dialect = { ...plain, delimiter, encoding };
        // Each byte of the UTF-8 is taken for a character of Windows-1252 there.
        const bytes = utf8(text);
        const here = await askAll(new ByteTokeniser(chunkBytes), bytes, dialect);
        expect(here).toEqual(await askAll(new PapaTokeniser(), bytes, dialect));
      }),
      { numRuns: 120 }
    );
  });

  it('say the same of numbers and words in many forms', async () => {
    const unit = fc.constantFrom(
      '1',
      '2',
      '0',
      '.',
      '-',
      ' ',
      '\u00a0',
      '\u202f',
      '\u2212',
      '+',
      'e',
      'x',
      'é',
      '\t'
    );
    const cell = fc.string({ unit, maxLength: 9 });
    await fc.assert(
      fc.asyncProperty(fc.array(fc.array(cell, { minLength: 1, maxLength: 3 })), async (rows) => {
        const bytes = utf8(rows.map((row) => row.join(',')).join('\n'));
        expect(await askAll(new ByteTokeniser(), bytes, plain)).toEqual(
          await askAll(new PapaTokeniser(), bytes, plain)
        );
      }),
      { numRuns: 120 }
    );
  });

  it('say the same of hostile bytes, wherever the pieces break', async () => {
    const files = fc.oneof(hostileBytes, brokenTable.map(utf8));
    await fc.assert(
      fc.asyncProperty(files, chunks, async (bytes, chunkBytes) => {
        const papa = await askAll(new PapaTokeniser(), bytes, plain);
        expect(await askAll(new ByteTokeniser(chunkBytes), bytes, plain)).toEqual(papa);
        expect(await askAll(new ByteTokeniser(), bytes, plain)).toEqual(papa);
      }),
      { numRuns: 150 }
    );
  });

  it('agree on rows swallowed between stray quotes of a wide table', async () => {
    const cell = fc.constantFrom('1', '2', '', '"a, b"', '"c\nd"', '"e', 'f"', '"g\r\nh, i"');
    const wide = fc.array(fc.array(cell, { minLength: 8, maxLength: 8 }), { minLength: 1, maxLength: 12 });
    await fc.assert(
      fc.asyncProperty(wide, chunks, async (rows, chunkBytes) => {
        const bytes = utf8(`${'h,'.repeat(7)}h\n${rows.map((row) => row.join(',')).join('\n')}\n`);
        expect(await askAll(new ByteTokeniser(chunkBytes), bytes, plain)).toEqual(
          await askAll(new PapaTokeniser(), bytes, plain)
        );
      }),
      { numRuns: 100 }
    );
  });

  it('agree on a record too long for the byte reader', async () => {
    for (const long of [`"${'y\n'.repeat(30_000)}",1`, `"${'y\n'.repeat(40_000)}",1`, 'z,'.repeat(40_000)]) {
      const bytes = utf8(`a,b\n1,2\n${long}\n3,4\n`);
      expect(await collect(new ByteTokeniser(), bytes)).toEqual(await collect(new PapaTokeniser(), bytes));
    }
  });
});

describe('byte ranges', () => {
  it('cover a well-formed file without a gap, each the record it stands for', async () => {
    await fc.assert(
      fc.asyncProperty(writtenTable, async ({ text, delimiter, records }) => {
        const bytes = utf8(text);
        const ranges: [number, number][] = [];
        await new ByteTokeniser().read(new Blob([bytes]), { ...plain, delimiter, cells: 1 }, (record) => {
          ranges.push([record.byteStart ?? -1, record.byteEnd ?? -1]);
          return true;
        });
        const borders = [0, ...ranges.map(([, end]) => end)];
        expect(ranges.map(([start]) => start)).toEqual(borders.slice(0, -1));
        expect(borders.at(-1)).toBe(bytes.length);
        for (const [i, [start, end]] of ranges.entries()) {
          const again = await collect(new PapaTokeniser(), bytes.slice(start, end), { delimiter });
          expect(again.records.map((record) => record.cells)).toEqual([records[i]?.cells]);
        }
      }),
      { numRuns: 150 }
    );
  });

  it('count a byte order mark', async () => {
    const starts: (number | undefined)[] = [];
    await new ByteTokeniser().read(new Blob(['\ufeffa,b\n1,2\n']), { ...plain, bomBytes: 3 }, (record) => {
      starts.push(record.byteStart);
      return true;
    });
    expect(starts).toEqual([3, 7]);
  });
});

describe('handing over', () => {
  it('gives papaparse only the piece with the fault, and takes over again', async () => {
    const row = 'x,"y",1\n';
    const bytes = utf8(`${row.repeat(1000)}"bay 7" east,y,2\n${row.repeat(1000)}`);
    const onBytes: boolean[] = [];
    const faults: number[] = [];
    const report = await new ByteTokeniser(256).read(new Blob([bytes]), plain, (record, fault) => {
      onBytes.push(record.byteStart !== undefined);
      if (fault !== null) faults.push(record.line);
      return true;
    });
    expect(faults).toEqual([1001]);
    expect(report.lines).toBe(2001);
    expect(onBytes.slice(0, 1000).every(Boolean)).toBe(true);
    expect(onBytes[1000]).toBe(false);
    expect(onBytes.slice(1001).filter((each) => !each).length).toBeLessThan(64);
  });
});

describe('reading', () => {
  const bytes = utf8('a,b\n1,2\n'.repeat(5000));

  it.each([new ByteTokeniser(1024), new PapaTokeniser(1024)])(
    'stops where the visitor says so',
    async (reader) => {
      let seen = 0;
      await reader.read(new Blob([bytes]), plain, () => ++seen < 3);
      expect(seen).toBe(3);
    }
  );

  it.each([new ByteTokeniser(1024), new PapaTokeniser(1024)])(
    'stops where the listener says so',
    async (reader) => {
      const told: number[] = [];
      let seen = 0;
      await reader.read(new Blob([bytes]), plain, () => ++seen > 0, {
        onBytes: (done) => told.push(done) < 2
      });
      expect(told).toHaveLength(2);
      expect(seen).toBeLessThan(1000);
    }
  );

  it.each([new ByteTokeniser(), new PapaTokeniser()])('reads nothing from an empty file', async (reader) => {
    expect((await collect(reader, utf8(''))).report).toEqual({ bytes: 0, lines: 0, faults: [] });
  });

  it('keeps a thousand faults and tells each with its record', async () => {
    const file = utf8('x\0,y\n'.repeat(1500));
    const { records, report } = await collect(new ByteTokeniser(), file);
    expect(report.faults).toHaveLength(1000);
    expect(records.filter((record) => record.fault !== null)).toHaveLength(1500);
    expect(report.lines).toBe(countLines(file));
  });
});
