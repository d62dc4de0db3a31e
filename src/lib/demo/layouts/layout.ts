import type { LayoutName } from '../row.ts';
import type { LayoutColumn } from './column.ts';

/** How a sender writes a file. */
export interface Layout {
  readonly name: LayoutName;
  readonly columns: readonly LayoutColumn[];
  readonly delimiter: ',' | ';' | '\t';
  readonly lineEnd: '\n' | '\r\n';
  readonly hasByteOrderMark: boolean;
  readonly hasUnitsRow: boolean;
  readonly hasTotals: boolean;
  readonly decimalMark: '.' | ',';
}
