/** Narrower tables are not guarded: a remark of some lines may well hold a few delimiters in each. */
const narrowestGuarded = 8;

/** A quoted cell that spans lines, and the record it is in. */
export interface QuotedBlock {
  /** Where the record starts, which is where a line does. */
  readonly start: number;
  readonly open: number;
  readonly close: number;
  /** Where the line that the quote closes on ends, -1 where that is too far to matter. */
  readonly lineEnd: number;
}

/**
 * Whether a quoted cell is a block of rows between two stray quotes rather than a text of some lines: a line wholly
 * inside it has exactly the cells of a row, or both the line it opens on and the line it closes on have.
 */
export function rowsSwallowed(
  unitAt: (at: number) => number,
  { start, open, close, lineEnd }: QuotedBlock,
  delimiter: number,
  usualCells: number
): boolean {
  if (usualCells < narrowestGuarded) return false;
  const end = lineEnd < 0 ? close + 1 : lineEnd;
  let at = open;
  while (at > start && !isLineEnd(unitAt(at - 1))) at--;
  let isFirst = true;
  let firstFits = false;
  for (;;) {
    let cells = 1;
    for (; at < end && !isLineEnd(unitAt(at)); at++) if (unitAt(at) === delimiter) cells++;
    const fits = cells === usualCells;
    if (at > close) return lineEnd >= 0 && firstFits && fits;
    if (isFirst) firstFits = fits;
    else if (fits) return true;
    isFirst = false;
    at++;
  }
}

function isLineEnd(unit: number): boolean {
  return unit === 0x0a || unit === 0x0d;
}
