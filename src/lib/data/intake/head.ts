import { countContent, newContentCounts } from './header/content.ts';
import { findHeader, unitText, type FoundHeader, type HeadRecord } from './header/find.ts';
import type { ColumnSight } from './header/recognise.ts';
import { tokeniserFor } from './tokenise/index.ts';
import type { Dialect } from './tokeniser.ts';

/** Records at the start of a file that the header and the content of its columns are judged by. */
const headRecords = 400;

export interface FileHead {
  readonly header: FoundHeader;
  readonly sights: readonly ColumnSight[];
  readonly columnCount: number;
  /** Cells that a record has to have: empty headers at the end count only where most records fill their cells. */
  readonly width: number;
}

/** Reads the first records of a file and finds its header. */
export async function readHead(source: Blob, dialect: Dialect): Promise<FileHead> {
  const records: HeadRecord[] = [];
  await tokeniserFor(dialect).read(source, dialect, (record) => {
    const cells = Array.from({ length: record.cellCount }, (_, cell) => record.text(cell));
    records.push({ line: record.line, cells });
    return records.length < headRecords;
  });
  const header = findHeader(records);
  const data = records.slice(header.index + 1 + (header.units === null ? 0 : 1));
  const columnCount = header.index < 0 ? usualWidth(data) : header.headers.length;
  const sights = sightsOf(header, data, columnCount);
  return {
    header,
    sights,
    columnCount,
    width: header.index < 0 ? columnCount : widthOf(sights, data.length)
  };
}

function widthOf(sights: readonly ColumnSight[], records: number): number {
  let width = sights.length;
  while (width > 0 && sights[width - 1]?.header === '' && !isFilled(sights[width - 1], records)) width--;
  return width;
}

function isFilled(sight: ColumnSight | undefined, records: number): boolean {
  return (sight?.content.filled ?? 0) * 2 > records;
}

/** The cell count that most records have. */
function usualWidth(records: readonly HeadRecord[]): number {
  const times = new Map<number, number>();
  for (const { cells } of records) times.set(cells.length, (times.get(cells.length) ?? 0) + 1);
  return [...times].sort((a, b) => b[1] - a[1])[0]?.[0] ?? 0;
}

function sightsOf(header: FoundHeader, data: readonly HeadRecord[], columnCount: number): ColumnSight[] {
  return Array.from({ length: columnCount }, (_, column): ColumnSight => {
    const content = newContentCounts();
    for (const { cells } of data) if (cells.length >= columnCount) countContent(content, cells[column] ?? '');
    const unit = unitText(header.units?.cells[column] ?? '');
    return { header: header.headers[column] ?? '', unit, content };
  });
}
