import type { GroupKey, RecordFilter } from '#lib/data/ledger/index.ts';
import type { QuestionContext } from './context.ts';
import { rateBits, ratesOf } from './rates.ts';

/** One month of one group. NaN where nothing was measured or judged. */
export interface SeriesMonth {
  /** `2031-07`. */
  readonly month: string;
  readonly measured: number;
  readonly meanPercent: number;
  readonly meanErrorPercent: number;
  readonly judged: number;
  readonly outside: number;
}

export interface SeriesGroup {
  readonly name: string;
  readonly measured: number;
  /** Every month from the first to the last in hand, in order. */
  readonly months: readonly SeriesMonth[];
}

export interface SeriesAnswer {
  readonly by: GroupKey;
  readonly groups: readonly SeriesGroup[];
  /** Groups that were left out beyond the most asked for. */
  readonly leftOut: number;
}

/** Sums of one cell of group and month. */
interface CellSums {
  readonly measured: Float64Array;
  readonly percent: Float64Array;
  readonly squares: Float64Array;
  readonly judged: Float64Array;
  readonly outside: Float64Array;
}

function add(array: Float64Array, index: number, value: number): void {
  array[index] = (array[index] ?? 0) + value;
}

function sumCells(
  context: QuestionContext,
  rows: Uint32Array,
  cellOf: (row: number) => number,
  cells: number
): CellSums {
  const { flags, percent } = ratesOf(context);
  const zeros = () => new Float64Array(cells);
  const sums = { measured: zeros(), percent: zeros(), squares: zeros(), judged: zeros(), outside: zeros() };
  for (let i = 0; i < rows.length; i++) {
    const row = rows[i] as number;
    const cell = cellOf(row);
    const bits = flags[row] as number;
    if ((bits & rateBits.judged) !== 0) add(sums.judged, cell, 1);
    if ((bits & rateBits.outside) !== 0) add(sums.outside, cell, 1);
    if ((bits & rateBits.measured) === 0) continue;
    add(sums.measured, cell, 1);
    add(sums.percent, cell, percent[row] as number);
  }
  // Squares around the cell's mean in a second pass, so that a small spread keeps its digits.
  const means = sums.percent.map((sum, cell) => sum / (sums.measured[cell] ?? 1));
  for (let i = 0; i < rows.length; i++) {
    const row = rows[i] as number;
    if (((flags[row] as number) & rateBits.measured) === 0) continue;
    const cell = cellOf(row);
    const own = (percent[row] as number) - (means[cell] as number);
    add(sums.squares, cell, own * own);
  }
  return sums;
}

function monthOf(sums: CellSums, cell: number, month: string): SeriesMonth {
  const measured = sums.measured[cell] ?? 0;
  const spread = measured > 1 ? Math.sqrt((sums.squares[cell] ?? 0) / (measured - 1)) : NaN;
  return {
    month,
    measured,
    meanPercent: measured > 0 ? (sums.percent[cell] ?? 0) / measured : NaN,
    meanErrorPercent: spread / Math.sqrt(measured),
    judged: sums.judged[cell] ?? 0,
    outside: sums.outside[cell] ?? 0
  };
}

/** Mean discrepancy and rate per month of each group: those with most refuellings first, `most` groups at the most. */
export function series(
  context: QuestionContext,
  asked: { readonly filter: RecordFilter; readonly by: GroupKey; readonly most: number }
): SeriesAnswer {
  const { refuellings } = context.select(asked.filter);
  const grouping = context.group(asked.by);
  const months = context.group('month');
  const { severalVehicles } = context.ledger.computed;
  const rows = asked.by === 'vehicle' ? refuellings.filter((row) => severalVehicles[row] !== 1) : refuellings;
  const cellOf = (row: number) => (grouping.codes[row] ?? 0) * months.count + (months.codes[row] ?? 0);
  const sums = sumCells(context, rows, cellOf, grouping.count * months.count);
  const groups: SeriesGroup[] = [];
  for (let code = 0; code < grouping.count; code++) {
    const list = Array.from({ length: months.count - 1 }, (_none, month) =>
      monthOf(sums, code * months.count + month + 1, months.name(month + 1))
    );
    const measured = list.reduce((sum, month) => sum + month.measured, 0);
    if (measured > 0) groups.push({ name: grouping.name(code), measured, months: list });
  }
  groups.sort((a, b) => b.measured - a.measured || (a.name < b.name ? -1 : 1));
  return {
    by: asked.by,
    groups: groups.slice(0, asked.most),
    leftOut: Math.max(0, groups.length - asked.most)
  };
}
