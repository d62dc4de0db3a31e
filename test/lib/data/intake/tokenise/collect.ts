import type { Dialect, FormFault, Tokeniser, TokeniserReport } from '#lib/data/intake/tokeniser.ts';

export interface Collected {
  readonly line: number;
  readonly lines: number;
  readonly cells: readonly string[];
  readonly quoted: readonly boolean[];
  readonly fault: FormFault | null;
}

/** Everything a tokeniser says of some bytes. */
export async function collect(
  tokeniser: Tokeniser,
  bytes: Uint8Array<ArrayBuffer>,
  dialect: Partial<Dialect> = {}
): Promise<{ records: Collected[]; report: TokeniserReport }> {
  const records: Collected[] = [];
  const report = await tokeniser.read(
    new Blob([bytes]),
    { delimiter: ',', encoding: 'utf-8', bomBytes: 0, ...dialect },
    (record, fault) => {
      const cells = Array.from({ length: record.cellCount }, (_, cell) => record.text(cell));
      const quoted = cells.map((_, cell) => record.wasQuoted(cell));
      records.push({ line: record.line, lines: record.lines, cells, quoted, fault });
      return true;
    }
  );
  return { records, report };
}

/** Physical lines of bytes in a one-byte encoding or UTF-8, counted by their line ends alone. */
export function countLines(bytes: Uint8Array): number {
  const text = Buffer.from(bytes).toString('latin1');
  const ends = text.match(/\r\n|\r|\n/g)?.length ?? 0;
  return ends + (text === '' || /[\r\n]$/.test(text) ? 0 : 1);
}

export function utf8(text: string): Uint8Array<ArrayBuffer> {
  return new TextEncoder().encode(text);
}
