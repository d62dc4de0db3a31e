import fc from 'fast-check';
import Papa from 'papaparse';
import { describe, expect, it } from 'vitest';
import { harmless, neutralised, textCell } from '#lib/data/evidence/csv.ts';

const risky = [
  '=',
  '+',
  '-',
  '@',
  '\t',
  '\r',
  '\n',
  '\0',
  '\uFF1D',
  '\uFF0B',
  '\uFF0D',
  '\uFF20',
  "'",
  ' ',
  '\u00A0'
];
const texts = fc
  .tuple(fc.array(fc.constantFrom(...risky), { maxLength: 3 }), fc.string({ unit: 'grapheme' }))
  .map(([start, rest]) => start.join('') + rest);

describe('a text cell of an export', () => {
  it('never starts in a way that a spreadsheet would run (OWASP ASVS 5.0 1.2.10, CWE-1236)', () => {
    fc.assert(
      fc.property(texts, (text) => {
        const [first = ''] = neutralised(text).replace(/^[ \u00A0\uFEFF\u200B]+/u, '');
        expect(risky.slice(0, 12)).not.toContain(first);
      }),
      { numRuns: 2_000 }
    );
  });

  it('is left as it is in a list of refused records where it is a number, and made harmless where it is more', () => {
    const rows: readonly (readonly [string, string])[] = [
      ['-12.5', '-12.5'],
      ['+1.234,5', '+1.234,5'],
      ['- 3', "'- 3"],
      ['Q7-KEB', 'Q7-KEB'],
      ["'as it is", "'as it is"],
      ['=1+1', "'=1+1"],
      ['-1+1', "'-1+1"],
      ['+1-2', "'+1-2"],
      ['@SUM(A1)', "'@SUM(A1)"]
    ];
    expect(rows.map(([text]) => harmless(text))).toEqual(rows.map(([, cell]) => cell));
    fc.assert(
      fc.property(texts, (text) => {
        const cell = harmless(text).replace(/^[ \u00A0\uFEFF\u200B]+/u, '');
        const isNumber = /^[-+]\d[\d.,'\u2019\s]*$/.test(cell);
        if (!isNumber) expect(risky.slice(0, 12)).not.toContain(cell.charAt(0));
      }),
      { numRuns: 2_000 }
    );
  });

  it('gives the text back when one leading apostrophe is taken away', () => {
    fc.assert(
      fc.property(texts, (text) => {
        const guarded = neutralised(text);
        expect(guarded.startsWith("'") ? guarded.slice(1) : guarded).toBe(text);
      }),
      { numRuns: 2_000 }
    );
  });

  it('is read back by an independent CSV reader (RFC 4180)', () => {
    fc.assert(
      fc.property(fc.array(texts, { minLength: 2, maxLength: 5 }), (cells) => {
        const line = cells.map(textCell).join(',');
        const [row = []] = Papa.parse<string[]>(line, { delimiter: ',', newline: '\r\n' }).data;
        expect(row).toEqual(cells.map((cell) => (cell === '' ? '' : neutralised(cell))));
      })
    );
  });
});
