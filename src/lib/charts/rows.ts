/** Where the rows of a horizontal chart stand: one row a group, names at the left, counts at the right. */
export interface RowLayout {
  /** Names stand above their row instead of beside it. */
  stacked: boolean;
  plotLeft: number;
  plotRight: number;
  rowHeight: number;
  /** Height of the whole drawing. */
  height: number;
  /** Centre of a row's marks. */
  y: (index: number) => number;
  /** Baseline of a row's words. */
  wordsY: (index: number) => number;
}

export interface RowForm {
  /** Room for the rod above the rows, px. */
  top?: number;
  /** Room below the rows, px. */
  bottom?: number;
  rowHeight?: number;
}

const CHARACTER_PX = 7.4;
const GAP_PX = 16;
const EDGE_PX = 12;

/**
 * Lays rows out in a width. Where names and notes would take more than half of it, they go above their row and the
 * plot takes the whole width.
 *
 * @param names the longest decides; so with `notes`
 */
export function rowLayout(
  width: number,
  names: readonly string[],
  notes: readonly string[],
  form: RowForm = {}
): RowLayout {
  const top = form.top ?? 52;
  const namesPx = longest(names) * CHARACTER_PX + GAP_PX;
  const notesPx = notes.some((note) => note !== '') ? longest(notes) * CHARACTER_PX + GAP_PX : EDGE_PX;
  const stacked = namesPx + notesPx > width * 0.55;
  const rowHeight = stacked ? 46 : (form.rowHeight ?? 28);
  const y = (index: number) => top + (index + 0.5) * rowHeight + (stacked ? 10 : 0);
  return {
    stacked,
    plotLeft: stacked ? EDGE_PX : namesPx,
    plotRight: Math.max(stacked ? EDGE_PX + 40 : namesPx + 40, width - (stacked ? EDGE_PX : notesPx)),
    rowHeight,
    height: top + names.length * rowHeight + (form.bottom ?? 8),
    y,
    wordsY: (index) => (stacked ? y(index) - 14 : y(index) + 4.5)
  };
}

function longest(texts: readonly string[]): number {
  return texts.reduce((most, text) => Math.max(most, text.length), 0);
}
