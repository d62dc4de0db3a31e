import fc from 'fast-check';
import Papa from 'papaparse';
import { describe, expect, it } from 'vitest';
import type { Twin } from '#lib/charts/twin.ts';
import { twinCsv } from '#lib/ui/twin-csv.ts';

function table(rows: readonly (readonly string[])[]): Twin {
  return {
    caption: 'Table',
    columns: [
      { key: 'who', label: 'Tail' },
      { key: 'value', label: 'Mean', unit: '%', kind: 'number' }
    ],
    rows: rows.map((cells, index) => ({ key: `${index}`, cells: cells.map((text) => ({ text })) }))
  };
}

describe('twinCsv', () => {
  it('writes units in the header, text quoted, lines ended by CRLF (RFC 4180)', () => {
    expect(twinCsv(table([['Q7-KEB, "left"', '1.94']]))).toBe(
      '"Tail","Mean (%)"\r\n"Q7-KEB, ""left""",1.94\r\n'
    );
  });

  it.each([
    ['+1.94', '1.94'],
    ['\u22120.62', '-0.62'],
    ['60\u2009214', '60214'],
    ['none', '"none"']
  ])('writes the number %s as a plain decimal %s', (shown, written) => {
    expect(twinCsv(table([['a', shown]])).split('\r\n')[1]).toBe(`"a",${written}`);
  });

  it.each(['=1+1', '+cmd', '-2', '@x', '\u00a0=1', '\uff1d1', "'quoted", '\tx'])(
    'puts an apostrophe before the text %j, which a spreadsheet might run',
    (text) => {
      expect(twinCsv(table([[text, '1']])).split('\r\n')[1]).toBe(`"'${text}",1`);
    }
  );

  it('leaves other text as it is', () => {
    expect(twinCsv(table([['2 of 9', '1']])).split('\r\n')[1]).toBe('"2 of 9",1');
  });

  it('comes back through another reader, all rows of it', () => {
    fc.assert(
      fc.property(fc.array(fc.string(), { minLength: 1, maxLength: 20 }), (texts) => {
        const csv = twinCsv(table(texts.map((text) => [text, '1.5'])));
        const back = Papa.parse<string[]>(csv, {
          skipEmptyLines: false,
          newline: '\r\n',
          delimiter: ','
        }).data;
        expect(back.slice(1, -1).map((row) => (row[0] ?? '').replace(/^'/, ''))).toEqual(texts);
        expect(back).toHaveLength(texts.length + 2);
      }),
      { numRuns: 60 }
    );
  });
});
