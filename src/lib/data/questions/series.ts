import { outside, notJudged } from '#lib/core/reconciliation/index.ts';
import { limitCheckBits, type GroupKey, type RecordFilter } from '#lib/data/ledger/index.ts';
import type { QuestionContext } from './context.ts';

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
  const { computed, verdicts } = context.ledger;
  const zeros = () => new Float64Array(cells);
  const sums = { measured: zeros(), percent: zeros(), squares: zeros(), judged: zeros(), outside: zeros() };
  const percentOf = (row: number) => {
    const isSlip = ((verdicts.checks[row] ?? 0) & limitCheckBits.suspectedSlip) !== 0;
    const mass = computed.refuellingMassKg[row] ?? NaN;
    return isSlip || !(mass > 0) || !context.ledger.counts(row)
      ? NaN
      : (100 * (computed.discrepancyKg[row] ?? NaN)) / mass;
  };
  for (const row of rows) {
    const cell = cellOf(row);
    if (verdicts.verdict[row] !== notJudged) {
      add(sums.judged, cell, 1);
      if (verdicts.verdict[row] === outside) add(sums.outside, cell, 1);
    }
    const percent = percentOf(row);
    if (Number.isNaN(percent)) continue;
    add(sums.measured, cell, 1);
    add(sums.percent, cell, percent);
  }
  // Squares around the cell's mean in a second pass, so that a small spread keeps its digits.
  for (const row of rows) {
    const percent = percentOf(row);
    if (Number.isNaN(percent)) continue;
    const cell = cellOf(row);
    add(sums.squares, cell, (percent - (sums.percent[cell] ?? 0) / (sums.measured[cell] ?? 1)) ** 2);
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
