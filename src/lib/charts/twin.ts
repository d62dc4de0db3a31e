/**
 * A table twin: the very numbers of a chart as rows of words, made by the chart's own formatter. One value feeds the
 * table on the page and the file that is saved.
 */
export interface Twin {
  /** States the question, n, limits and sign. */
  caption: string;
  columns: readonly Column[];
  rows: readonly Row[];
}

export interface Column {
  key: string;
  label: string;
  /** Stands in the header, never in the cells. */
  unit?: string;
  /** `text` if left out. `number` is right-aligned; `code` is an identifier; `words` may wrap. */
  kind?: 'text' | 'number' | 'code' | 'words';
}

export interface Row {
  /** The key of the datum, the same as `data-key` on its mark in the chart. */
  key: string;
  cells: readonly Cell[];
}

export interface Cell {
  text: string;
  /** What the column is sorted by when the words do not sort; the words themselves if left out. */
  sort?: number | string;
  mark?: MarkKind;
  tone?: Tone;
  /** An older value, struck through once before the text. */
  struck?: string;
}

/**
 * Status in ink: `open` = within, `half` = outside but no further than its own doubt explains, `ringed` = outside,
 * `plain` = no verdict.
 */
export type MarkKind = 'open' | 'half' | 'ringed' | 'plain';

/** Which of the two sides of zero a value is on; `none` at zero and where there is no sign. */
export type Tone = 'plus' | 'minus' | 'none';

/** The side of zero of a value; missing has none. */
export function toneOf(value: number): Tone {
  if (value > 0) return 'plus';
  return value < 0 ? 'minus' : 'none';
}

/** A cell of plain words. */
export function words(text: string): Cell {
  return { text };
}

/** A cell of a number: shown as `text`, sorted by `value`. */
export function figure(value: number, text: string): Cell {
  return { text, sort: value };
}
