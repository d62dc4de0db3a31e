import type { Cell, Column, Row } from '#lib/charts/twin.ts';

export interface Sort {
  column: string;
  direction: 'ascending' | 'descending';
}

/** The order after a press on a header: ascending, then descending, then as given. */
export function nextSort(order: Sort | null, column: string): Sort | null {
  if (order?.column !== column) return { column, direction: 'ascending' };
  return order.direction === 'ascending' ? { column, direction: 'descending' } : null;
}

/**
 * Rows in the asked order. Missing numbers (NaN) stand last in both directions; ties keep the given order; words sort
 * by code unit, with runs of digits by their number, so that H9 stands before H10.
 */
export function sortedRows(
  rows: readonly Row[],
  columns: readonly Column[],
  order: Sort | null
): readonly Row[] {
  const index = columns.findIndex((column) => column.key === order?.column);
  if (order === null || index < 0) return rows;
  const sign = order.direction === 'ascending' ? 1 : -1;
  return rows.toSorted((a, b) => compareCells(a.cells[index], b.cells[index], sign));
}

function compareCells(a: Cell | undefined, b: Cell | undefined, sign: number): number {
  const left = a?.sort ?? a?.text ?? '';
  const right = b?.sort ?? b?.text ?? '';
  const missing = Number(Number.isNaN(left)) - Number(Number.isNaN(right));
  if (missing !== 0) return missing;
  if (typeof left === 'number' && typeof right === 'number') return sign * (left - right || 0);
  return sign * compareWords(String(left), String(right));
}

function compareWords(left: string, right: string): number {
  const a = left.split(/(\d+)/);
  const b = right.split(/(\d+)/);
  for (let i = 0; i < Math.min(a.length, b.length); i++) {
    const x = a[i] ?? '';
    const y = b[i] ?? '';
    if (x === y) continue;
    // Odd places hold the digits.
    if (i % 2 === 1 && Number(x) !== Number(y)) return Number(x) - Number(y);
    return x < y ? -1 : 1;
  }
  return a.length - b.length;
}
