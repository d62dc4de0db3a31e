/** Narrower tables are not guarded: a remark of some lines may well hold a few delimiters in each. */
export const narrowestGuarded = 6;

/**
 * Whether a line wholly inside the quoted cell of [open, close] has exactly the cells of a row: then it is no text of
 * some lines but a block of rows between two stray quotes.
 */
export function rowsSwallowed(
  unitAt: (at: number) => number,
  open: number,
  close: number,
  delimiter: number,
  usualCells: number
): boolean {
  if (usualCells < narrowestGuarded) return false;
  let cells = 1;
  let isInside = false;
  for (let at = open; at < close; at++) {
    const unit = unitAt(at);
    if (unit === delimiter) {
      cells++;
    } else if (unit === 0x0a || unit === 0x0d) {
      if (isInside && cells === usualCells) return true;
      isInside = true;
      cells = 1;
    }
  }
  return false;
}
