import {
  computedReader,
  mergedFields,
  sourceKeys,
  sourceReader,
  writtenReader,
  type Ledger,
  type RecordValue
} from '#lib/data/ledger/index.ts';
import {
  computedFields,
  exportFormat,
  exportFormatColumn,
  exportName,
  fieldNamed,
  fieldsOfKind,
  splitKey
} from '#lib/data/record/index.ts';
import type { Settings } from '#lib/data/settings/index.ts';
import { valueWords } from '#lib/data/words/index.ts';
import { textCell } from './csv.ts';
import { isoInstant } from './instant.ts';
import { computedCell, plainDecimal } from './numbers.ts';

/** One column of the export: its header and the cell of a row. */
interface ExportColumn {
  readonly header: string;
  readonly cell: (row: number) => string;
}

function numberOf(value: RecordValue): number {
  return typeof value === 'number' ? value : NaN;
}

function sourceColumn(ledger: Ledger, key: ReturnType<typeof sourceKeys>[number]): ExportColumn {
  const read = sourceReader(ledger, key);
  const header = exportName(key);
  const { kind } = fieldNamed(splitKey(key).name);
  const name = fieldsOfKind('name').find((field) => field === key);
  if (name !== undefined) {
    const written = writtenReader(ledger.source.columns, name);
    return { header, cell: (row) => textCell(written(row)) };
  }
  if (kind === 'time') return { header, cell: (row) => isoInstant(numberOf(read(row))) };
  if (kind === 'number') {
    return {
      header,
      cell: (row) => {
        const value = numberOf(read(row));
        return Number.isFinite(value) ? plainDecimal(value) : '';
      }
    };
  }
  return { header, cell: (row) => textCell(valueWords(key, String(read(row)))) };
}

/** For each field with names that a person merged: what every row is counted as, beside the name as written. */
function countedAsColumns(ledger: Ledger): ExportColumn[] {
  return mergedFields(ledger.source.columns).map((field) => {
    const read = sourceReader(ledger, field);
    return { header: `${exportName(field)}_counted_as`, cell: (row) => textCell(String(read(row))) };
  });
}

function computedColumns(ledger: Ledger, settings: Settings): ExportColumn[] {
  return computedFields.map((field) => {
    const read = computedReader(ledger, field.name, settings);
    const cell =
      field.kind === 'number'
        ? (row: number) => computedCell(numberOf(read(row)), field.decimals)
        : (row: number) => textCell(valueWords(field.name, String(read(row))));
    return { header: field.exportName, cell };
  });
}

/** Rows written into one piece before it is handed on: keeps strings short at a million rows. */
const rowsAPiece = 5_000;

/**
 * Records as CSV: RFC 4180, CRLF, one column per field in canonical units with names as written, then names as counted
 * where some were merged, then what was computed, then the format.
 * Yields pieces of text that make the file when joined.
 */
export function* recordsCsv(ledger: Ledger, settings: Settings, rows: Uint32Array): Generator<string> {
  const columns = [
    ...sourceKeys(ledger).map((key) => sourceColumn(ledger, key)),
    ...countedAsColumns(ledger),
    ...computedColumns(ledger, settings),
    { header: exportFormatColumn, cell: () => String(exportFormat) }
  ];
  let piece = `${columns.map(({ header }) => header).join(',')}\r\n`;
  for (let i = 0; i < rows.length; i++) {
    const row = rows[i] ?? 0;
    piece += `${columns.map(({ cell }) => cell(row)).join(',')}\r\n`;
    if (i % rowsAPiece === rowsAPiece - 1) {
      yield piece;
      piece = '';
    }
  }
  yield piece;
}
