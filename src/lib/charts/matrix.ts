import { formatCount, formatNumber, type NumberForm } from './format.ts';
import { figure, toneOf, words, type Twin } from './twin.ts';

/** A row or a column with its own effect, drawn in the margin. */
export interface MatrixSide {
  key: string;
  label: string;
  effect: number;
  low: number;
  high: number;
  n: number;
  /** Sides of different blocks never meet and are drawn apart. */
  block?: string;
}

export interface MatrixCell {
  row: string;
  column: string;
  n: number;
  mean: number;
  fitted: number;
  /** Mean less fitted: what is drawn. */
  residual: number;
}

export interface MatrixWords {
  row: string;
  column: string;
  n: string;
  mean: string;
  fitted: string;
  residual: string;
  effect: string;
  unit: string;
  form: NumberForm;
  minus: string;
  plus: string;
}

/** The key of a cell: its row's and its column's. */
export function cellKey(cell: { row: string; column: string }): string {
  return `${cell.row} ${cell.column}`;
}

/**
 * The step of seven on the way from minus to plus: 4 is about zero, 1 and 7 are beyond 5/7 of the scale's end on either
 * side. Missing is 4.
 *
 * @param end the scale's end, more than 0
 */
export function sideStep(value: number, end: number): number {
  if (!Number.isFinite(value)) return 4;
  const share = Math.max(-1, Math.min(1, value / end));
  return Math.min(7, Math.floor(((share + 1) / 2) * 7) + 1);
}

/** The start of each side's cell, px, with a gap where the block changes. */
export function sidePlaces(sides: readonly MatrixSide[], cellPx: number, gapPx = 10): number[] {
  let at = 0;
  return sides.map((side, index) => {
    const before = sides[index - 1];
    if (before !== undefined) at += cellPx + (before.block === side.block ? 0 : gapPx);
    return at;
  });
}

/** A stretch of neighbouring sides of one block, as indices. */
export interface BlockRun {
  block: string | undefined;
  first: number;
  last: number;
}

/** The runs of neighbours that share a block. */
export function blockRuns(sides: readonly MatrixSide[]): BlockRun[] {
  const runs: BlockRun[] = [];
  sides.forEach((side, index) => {
    const run = runs.at(-1);
    if (run !== undefined && run.block === side.block) run.last = index;
    else runs.push({ block: side.block, first: index, last: index });
  });
  return runs;
}

/** The side of a cell's square, px: its area grows with n, and even one uplift can be seen. */
export function squarePx(n: number, most: number, cellPx: number): number {
  if (!(n > 0) || !(most > 0)) return 0;
  return Math.max(3, (cellPx - 1) * Math.sqrt(n / most));
}

/** A cell in one line of words. */
export function matrixLine(cell: MatrixCell, row: string, column: string, names: MatrixWords): string {
  const number = (value: number) => `${formatNumber(value, names.form)}\u2009${names.unit}`;
  const tone = toneOf(cell.residual);
  const side = tone === 'none' ? '' : ` (${names[tone]})`;
  return `${row} with ${column}: ${names.residual} ${number(cell.residual)}${side}, ${names.mean} ${number(cell.mean)}, ${names.fitted} ${number(cell.fitted)}; ${formatCount(cell.n)} ${names.n}`;
}

/** A side's effect in one line of words. */
export function effectLine(side: MatrixSide, names: MatrixWords): string {
  const tone = toneOf(side.effect);
  const word = tone === 'none' ? '' : ` (${names[tone]})`;
  return `${side.label}: ${names.effect} ${formatNumber(side.effect, names.form)}\u2009${names.unit}${word}, interval ${formatNumber(side.low, names.form)} to ${formatNumber(side.high, names.form)}; ${formatCount(side.n)} ${names.n}`;
}

/** The table twin of the matrix: one row a pair that met. */
export function matrixTwin(
  cells: readonly MatrixCell[],
  rows: readonly MatrixSide[],
  columns: readonly MatrixSide[],
  names: MatrixWords,
  caption: string
): Twin {
  const rowLabels = new Map(rows.map((side) => [side.key, side.label]));
  const columnLabels = new Map(columns.map((side) => [side.key, side.label]));
  const number = (value: number) => figure(value, formatNumber(value, { missing: 'none', ...names.form }));
  const column = (key: string, label: string) => ({
    key,
    label,
    unit: names.unit,
    kind: 'number' as const
  });
  return {
    caption,
    columns: [
      { key: 'row', label: names.row },
      { key: 'column', label: names.column },
      { key: 'n', label: names.n, kind: 'number' },
      column('mean', names.mean),
      column('fitted', names.fitted),
      column('residual', names.residual)
    ],
    rows: cells.map((cell) => ({
      key: cellKey(cell),
      cells: [
        words(rowLabels.get(cell.row) ?? cell.row),
        words(columnLabels.get(cell.column) ?? cell.column),
        figure(cell.n, formatCount(cell.n)),
        number(cell.mean),
        number(cell.fitted),
        { ...number(cell.residual), tone: toneOf(cell.residual) }
      ]
    }))
  };
}

/** The table twin of one margin: one row a side, in the order drawn. */
export function effectTwin(
  sides: readonly MatrixSide[],
  item: string,
  names: MatrixWords,
  caption: string
): Twin {
  const number = (value: number) => figure(value, formatNumber(value, { missing: 'none', ...names.form }));
  const column = (key: string, label: string) => ({
    key,
    label,
    unit: names.unit,
    kind: 'number' as const
  });
  return {
    caption,
    columns: [
      { key: 'item', label: item },
      { key: 'n', label: names.n, kind: 'number' },
      column('effect', names.effect),
      column('low', 'Interval from'),
      column('high', 'to')
    ],
    rows: sides.map((side) => ({
      key: side.key,
      cells: [
        words(side.label),
        figure(side.n, formatCount(side.n)),
        { ...number(side.effect), tone: toneOf(side.effect) },
        number(side.low),
        number(side.high)
      ]
    }))
  };
}
