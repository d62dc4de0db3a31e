import type { DemoRow } from '../row.ts';
import type { LayoutColumn } from './column.ts';
import type { Layout } from './layout.ts';

/** A cell, quoted as RFC 4180 asks where it holds a quote, a line end or the delimiter. */
function quoted(text: string, delimiter: string): string {
  if (!text.includes(delimiter) && !text.includes('"') && !text.includes('\n')) return text;
  return `"${text.replaceAll('"', '""')}"`;
}

function cellOf(layout: Layout, column: LayoutColumn, row: DemoRow): string {
  const standing = row.cells?.[column.field];
  if (standing !== undefined) return quoted(standing, layout.delimiter);
  const text = column.text(row);
  if (column.decimals > 0) return layout.decimalMark === ',' ? text.replace('.', ',') : text;
  return column.field === 'remarks' ? quoted(text, layout.delimiter) : text;
}

/** The line of a row, with its end. */
export function writeRow(layout: Layout, row: DemoRow): string {
  const { columns, delimiter } = layout;
  const count = row.extraCells < 0 ? columns.length + row.extraCells : columns.length;
  let line = '';
  for (let index = 0; index < count; index++) {
    const column = columns[index];
    if (column === undefined) break;
    if (index > 0) line += delimiter;
    line += cellOf(layout, column, row);
  }
  for (let extra = 0; extra < row.extraCells; extra++) line += `${delimiter}x`;
  return line + layout.lineEnd;
}

/** The header line, with its end. */
export function writeHeader(layout: Layout): string {
  const words = layout.columns.map((column) => quoted(column.header, layout.delimiter));
  return words.join(layout.delimiter) + layout.lineEnd;
}

/** The row of units beneath the header, with its end. */
export function writeUnits(layout: Layout): string {
  return layout.columns.map((column) => column.unitRow).join(layout.delimiter) + layout.lineEnd;
}

/** The line of totals: the sum of the volumes as written, under a word and without a ticket or time. */
export function writeTotals(layout: Layout, volumeL: number): string {
  const cells = layout.columns.map((column, index) => {
    if (index === 0) return 'Total';
    return column.field === 'volume' ? String(volumeL) : '';
  });
  return cells.join(layout.delimiter) + layout.lineEnd;
}
