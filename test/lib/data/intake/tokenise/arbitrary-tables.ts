import fc from 'fast-check';

/** A table written as CSV, and what every reader must find in it. */
export interface WrittenTable {
  readonly text: string;
  readonly delimiter: string;
  readonly records: readonly { line: number; lines: number; cells: string[]; quoted: boolean[] }[];
}

const units = [
  'a',
  'B',
  '7',
  '0',
  '.',
  ' ',
  'é',
  '\u00a0',
  '€',
  '東',
  '😀',
  '"',
  ',',
  ';',
  '\t',
  '|',
  '\n',
  '\r',
  '\r\n'
];
const cell = fc.array(fc.constantFrom(...units), { maxLength: 6 }).map((parts) => parts.join(''));
const lineEnd = fc.constantFrom('\n', '\r\n', '\r');

interface Parts {
  readonly rows: readonly { cells: readonly { text: string; quote: boolean }[]; end: string }[];
  readonly delimiter: string;
  readonly finalEnd: boolean;
}

/** Any well-formed table: quoted line ends of three kinds, blank records, line ends mixed from record to record. */
export const writtenTable: fc.Arbitrary<WrittenTable> = fc
  .record({
    rows: fc.array(
      fc.record({
        cells: fc.array(fc.record({ text: cell, quote: fc.boolean() }), { minLength: 1, maxLength: 5 }),
        end: lineEnd
      }),
      { minLength: 1, maxLength: 8 }
    ),
    delimiter: fc.constantFrom(',', ';', '\t', '|'),
    finalEnd: fc.boolean()
  })
  .map(write);

function write({ rows, delimiter, finalEnd }: Parts): WrittenTable {
  let text = '';
  let line = 1;
  const records: WrittenTable['records'][number][] = [];
  rows.forEach((row, index) => {
    const quoted = row.cells.map(({ text: cellText, quote }) => quote || mustQuote(cellText, delimiter));
    const isLast = index === rows.length - 1;
    const body = row.cells
      .map((each, i) => (quoted[i] === true ? `"${each.text.replaceAll('"', '""')}"` : each.text))
      .join(delimiter);
    // A CR end before a record that starts with LF would be one CRLF; such a record is quoted, so it cannot be.
    const end = isLast && !finalEnd ? '' : row.end;
    if (body === '' && end === '') return;
    const lines = 1 + row.cells.reduce((sum, each) => sum + lineEndsIn(each.text), 0);
    records.push({ line, lines, cells: row.cells.map((each) => each.text.replace(/\r\n?/g, '\n')), quoted });
    text += body + end;
    line += lines;
  });
  // Blank records between a CR and an LF end would melt into one CRLF.
  return /\r\n/.test(text) && meltsEnds(rows)
    ? write({ rows: withLineFeeds(rows), delimiter, finalEnd })
    : { text, delimiter, records };
}

function meltsEnds(rows: Parts['rows']): boolean {
  return rows.some(
    (row, i) => row.end === '\r' && rows[i + 1]?.cells.length === 1 && rows[i + 1]?.end === '\n'
  );
}

function withLineFeeds(rows: Parts['rows']): Parts['rows'] {
  return rows.map((row) => ({ ...row, end: '\n' }));
}

function lineEndsIn(text: string): number {
  return text.match(/\r\n|\r|\n/g)?.length ?? 0;
}

function mustQuote(text: string, delimiter: string): boolean {
  return text.includes('"') || text.includes(delimiter) || /[\r\n]/.test(text);
}

/** Bytes biased to what breaks readers. */
export const hostileBytes: fc.Arbitrary<Uint8Array<ArrayBuffer>> = fc
  .array(
    fc.oneof(
      {
        weight: 8,
        arbitrary: fc.constantFrom('"', ',', ';', '\t', '\r', '\n', '\r\n', '""', '",', ',"', '"\n', '\n"')
      },
      { weight: 4, arbitrary: fc.constantFrom('a', 'b7', ' ', '  ', '1.5', 'x y', 'é', '東京', '\u00a0') },
      { weight: 1, arbitrary: fc.constantFrom('\0', '\ufeff', '\u001a', '\u0085', '\ufffd', '\u2028') },
      {
        weight: 1,
        arbitrary: fc.constantFrom([0xff], [0xc3], [0xe6, 0x9d], [0xed, 0xa0, 0x80], [0xf4, 0x90])
      }
    ),
    { maxLength: 120 }
  )
  .map((parts) =>
    Uint8Array.from(
      parts.flatMap((part) => (typeof part === 'string' ? [...Buffer.from(part, 'utf8')] : part))
    )
  );

/** Table-like text with stray quotes and lost line ends: the faults that a reader must recover from. */
export const brokenTable: fc.Arbitrary<string> = fc
  .array(
    fc.array(
      fc.constantFrom('a', '', '12', '"b"', '"c,d"', '"e""f"', '"g\nh"', '"i', 'j"', '"k" l', '"" m', '"n" '),
      {
        minLength: 2,
        maxLength: 9
      }
    ),
    { maxLength: 25 }
  )
  .map((rows) => rows.map((row) => row.join(',')).join('\n'));
