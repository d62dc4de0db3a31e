import fc from 'fast-check';
import { describe, expect, it, test } from 'vitest';
import { detectDelimiter } from '#lib/data/intake/bytes/dialect.ts';

describe('the delimiter of a table', () => {
  test.each<[string, string, { delimiter: string; cells: number }]>([
    ['commas', 'a,b,c\n1,2,3\n', { delimiter: ',', cells: 3 }],
    ['semicolons with decimal commas', 'a;b\n1,5;2,5\n', { delimiter: ';', cells: 2 }],
    ['one decimal comma in every row', 't;volume, L\n1;1234,5\n2;99,5\n', { delimiter: ';', cells: 2 }],
    ['tabs', 'a\tb\n"x, y"\t1,5\nz\t2,5\n', { delimiter: '\t', cells: 2 }],
    ['bars', 'a|b\n1,5|2\n1,7|3\n', { delimiter: '|', cells: 2 }],
    ['delimiters in quotes do not count', 'a,b\n"x;y;z",1\n"u;v;w",2\n', { delimiter: ',', cells: 2 }],
    [
      'a preamble does not decide',
      'Uplifts; May\n\nfor: a, b\na,b,c,d\n1,2,3,4\n5,6,7,8\n9,1,2,3\n',
      { delimiter: ',', cells: 4 }
    ],
    ['a header alone', 'a;b;c', { delimiter: ';', cells: 3 }],
    ['remarks with commas', 'a;r\n1;foo, bar\n2;baz\n3;x, y, z\n', { delimiter: ';', cells: 2 }],
    ['CR line ends', 'a;b\r1;2\r', { delimiter: ';', cells: 2 }]
  ])('%s', (_, head, expected) => {
    const report = detectDelimiter(head, true);
    expect(report).toMatchObject({ ...expected, how: 'evidence', hasSepLine: false, alternatives: [] });
  });

  it('counts what agrees with it', () => {
    expect(detectDelimiter('Report\na,b\n1,2\n\n3,4\n', true)).toMatchObject({ agree: 3, records: 4 });
  });

  it('leaves a line that the head cuts out of the count', () => {
    expect(detectDelimiter('a,b\n1,2\n3', false)).toMatchObject({ agree: 2, records: 2 });
  });

  it('is a question where two fit', () => {
    const { delimiter, alternatives } = detectDelimiter('a;b,c\nx;y,z\nu;v,w\n', true);
    expect([delimiter, ...alternatives.map((each) => each.delimiter)].toSorted()).toEqual([',', ';']);
  });

  it('is named by a sep= line, which is no record', () => {
    for (const line of ['sep=;', 'SEP=;', '"sep=;"']) {
      expect(detectDelimiter(`${line}\r\na;b\r\n1,5;2,5\r\n`, true)).toEqual({
        delimiter: ';',
        cells: 2,
        agree: 2,
        records: 2,
        how: 'sepLine',
        hasSepLine: true,
        alternatives: []
      });
    }
  });

  it('is asked for where the sep= line leaves one column and another fits', () => {
    const { delimiter, alternatives } = detectDelimiter('sep=|\na,b\n1,2\n', true);
    expect([delimiter, alternatives.map((each) => each.delimiter)]).toEqual(['|', [',']]);
  });

  it('says where there is none', () => {
    expect(detectDelimiter('tails\nAB12\nCD34\n', true)).toMatchObject({
      how: 'oneColumn',
      cells: 1,
      agree: 3
    });
    expect(detectDelimiter('', true)).toMatchObject({ how: 'oneColumn', records: 0 });
  });
});

describe('over random tables', () => {
  const table = fc.record({
    delimiter: fc.constantFrom(',', ';', '\t', '|'),
    mark: fc.constantFrom('.', ','),
    kinds: fc.array(fc.constantFrom('number', 'text', 'time'), { minLength: 2, maxLength: 6 }),
    rows: fc.array(fc.array(fc.nat(999_999), { minLength: 6, maxLength: 6 }), { minLength: 2, maxLength: 12 })
  });

  it('is found, or is a question; never one column', () => {
    fc.assert(
      fc.property(table, ({ delimiter, mark, kinds, rows }) => {
        const cell = (kind: string, value: number): string => {
          if (kind === 'text') return `T${value % 97}`;
          if (kind === 'time') return `0${value % 9}.05.2026 1${value % 9}:30`;
          const text = (value / 100).toFixed(2).replace('.', mark);
          return mark === delimiter ? `"${text}"` : text;
        };
        const lines = rows.map((row) => kinds.map((kind, i) => cell(kind, row[i] ?? 0)).join(delimiter));
        const head = [kinds.map((kind, i) => `${kind} ${i}`).join(delimiter), ...lines].join('\n');
        const report = detectDelimiter(head, true);
        const offered = [report, ...report.alternatives].find((each) => each.delimiter === delimiter);
        expect(report.cells).toBeGreaterThan(1);
        expect(offered).toMatchObject({ cells: kinds.length });
      }),
      { numRuns: 600 }
    );
  });

  it('is decided for any text at all', () => {
    const unit = fc.constantFrom('"', ',', ';', '\t', '|', '\n', '\r', 'a', '1', ' ', 'sep=', '\0', '\ufeff');
    fc.assert(
      fc.property(fc.string({ unit, maxLength: 60 }), fc.boolean(), (text, isWhole) => {
        const report = detectDelimiter(text, isWhole);
        expect(report.delimiter).toHaveLength(1);
        expect(report.agree).toBeLessThanOrEqual(report.records);
      }),
      { numRuns: 600 }
    );
  });
});
