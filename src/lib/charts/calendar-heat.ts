import { formatCount, formatPercent } from './format.ts';
import { figure, words, type Twin } from './twin.ts';

/** One row of the calendar in one period. */
export interface HeatCell {
  key: string;
  row: string;
  column: string;
  due: number;
  done: number;
  failed: number;
}

export interface HeatLabel {
  key: string;
  label: string;
  /** Written above the column where a month or year begins; nothing if left out. */
  head?: string;
}

export interface HeatWords {
  row: string;
  column: string;
  due: string;
  done: string;
  failed: string;
  /** The share of done, in words: "coverage". */
  share: string;
}

/** Where the cells of a calendar stand: cut into bands one above the other, so that nothing scrolls sideways. */
export interface HeatLayout {
  cellPx: number;
  /** Columns in a band. */
  perBand: number;
  bands: number;
  left: number;
  bandHeight: number;
  height: number;
}

const LEAST_CELL_PX = 9;
const HEAD_PX = 22;
const BAND_GAP_PX = 14;

/**
 * Lays a calendar out: cells between 9 and 18 px wide, as many bands as the width needs, bands of nearly equal length.
 */
export function heatLayout(width: number, rows: number, columns: number, left: number): HeatLayout {
  const room = Math.max(40, width - left);
  const bands = Math.max(1, Math.ceil(columns / Math.floor(room / LEAST_CELL_PX)));
  const perBand = Math.max(1, Math.ceil(columns / bands));
  const cellPx = Math.min(18, Math.floor((room / perBand) * 10) / 10);
  const rowPx = Math.max(cellPx, 16);
  const bandHeight = HEAD_PX + rows * rowPx;
  return {
    cellPx,
    perBand,
    bands,
    left,
    bandHeight,
    height: bands * bandHeight + (bands - 1) * BAND_GAP_PX + 4
  };
}

/** The upper left corner of a cell, px. */
export function heatPlace(
  layout: HeatLayout,
  row: number,
  column: number,
  rows: number
): { x: number; y: number } {
  const band = Math.floor(column / layout.perBand);
  const rowPx = (layout.bandHeight - HEAD_PX) / rows;
  return {
    x: layout.left + (column % layout.perBand) * layout.cellPx,
    y: band * (layout.bandHeight + BAND_GAP_PX) + HEAD_PX + row * rowPx
  };
}

/**
 * The ink step of a share: 1 below 60 %, 2 below 80 %, 3 below 95 %, 4 below 100 %, 5 for all; 0 where nothing was due.
 */
export function heatStep(done: number, due: number): 0 | 1 | 2 | 3 | 4 | 5 {
  if (!(due > 0)) return 0;
  const share = done / due;
  if (share >= 1) return 5;
  if (share >= 0.95) return 4;
  if (share >= 0.8) return 3;
  return share >= 0.6 ? 2 : 1;
}

/** The words of the five steps, in order. */
export const HEAT_STEPS: readonly string[] = ['below 60 %', '60 to 80', '80 to 95', '95 to 100', 'all'];

/** A cell in one line of words. */
export function heatLine(cell: HeatCell, row: string, column: string, names: HeatWords): string {
  const share = formatPercent(cell.done / cell.due, { missing: 'none due' });
  return `${row}, ${column}: ${names.share} ${share}, ${formatCount(cell.done)} ${names.done} of ${formatCount(cell.due)} ${names.due}, ${formatCount(cell.failed)} ${names.failed}`;
}

/** The table twin: one row a cell, in the order given. */
export function heatTwin(
  cells: readonly HeatCell[],
  rows: readonly HeatLabel[],
  columns: readonly HeatLabel[],
  names: HeatWords,
  caption: string
): Twin {
  const rowLabels = new Map(rows.map((row) => [row.key, row.label]));
  const columnLabels = new Map(columns.map((column) => [column.key, column.label]));
  return {
    caption,
    columns: [
      { key: 'row', label: names.row },
      { key: 'column', label: names.column },
      { key: 'due', label: names.due, kind: 'number' },
      { key: 'done', label: names.done, kind: 'number' },
      { key: 'share', label: names.share, unit: '%', kind: 'number' },
      { key: 'failed', label: names.failed, kind: 'number' }
    ],
    rows: cells.map((cell) => ({
      key: cell.key,
      cells: [
        words(rowLabels.get(cell.row) ?? cell.row),
        words(columnLabels.get(cell.column) ?? cell.column),
        figure(cell.due, formatCount(cell.due)),
        figure(cell.done, formatCount(cell.done)),
        figure(
          cell.done / cell.due,
          formatPercent(cell.done / cell.due, { missing: 'none due' }).replace('\u2009%', '')
        ),
        figure(cell.failed, formatCount(cell.failed))
      ]
    }))
  };
}
