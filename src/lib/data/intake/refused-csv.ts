import type { RecordFate } from './account.ts';
import type { Layout } from './layout.ts';
import type { Source } from './source.ts';
import { tokeniserFor } from './tokenise/index.ts';
import type { RecordView } from './tokeniser.ts';

/** Columns added behind the file's own: where the record stands and why it is not used. */
const added = ['line in the file', 'not used because'];

function cell(text: string, delimiter: string): string {
  const isPlain = !text.includes(delimiter) && !/["\r\n]/.test(text);
  return isPlain ? text : `"${text.replaceAll('"', '""')}"`;
}

/**
 * The records of a file that were refused or set aside, cell by cell as they stand in it, under the file's own header:
 * they can be mended in place and imported again. `harmless` is given each cell, for it will be opened in a spreadsheet. Line and reason follow in columns of their own.
 */
export async function refusedCsv(
  source: Source,
  layout: Layout,
  records: readonly RecordFate[],
  harmless: (text: string) => string
): Promise<string[]> {
  const reasons = new Map(
    records
      .filter(({ fate }) => fate === 'refused' || fate === 'setAside')
      .map((record) => [record.line, record])
  );
  const { delimiter } = layout.dialect;
  const row = (cells: readonly string[]) =>
    `${cells.map((text) => cell(harmless(text), delimiter)).join(delimiter)}\r\n`;
  const cellsOf = (record: RecordView) =>
    Array.from({ length: record.cellCount }, (_none, i) => record.text(i));
  const parts = [row([...layout.headers, ...added])];
  if (layout.unitsRow !== null) parts.push(row([...layout.unitsRow, '', '']));
  await tokeniserFor(layout.dialect).read(source.blob, layout.dialect, (record) => {
    const reason = reasons.get(record.line);
    if (reason === undefined) return true;
    const cells = cellsOf(record);
    while (cells.length < layout.headers.length) cells.push('');
    const what = reason.value === null ? reason.words : `${reason.words}: ${reason.value}`;
    parts.push(row([...cells, String(record.line), what]));
    return true;
  });
  return parts;
}
