/** Narrower tables are not guarded: a remark of some lines may well hold a few delimiters in each. */
const narrowestGuarded = 8;

/**
 * Whether the quoted cell of [open, close] is a block of rows between two stray quotes rather than a text of some
 * lines: a line wholly inside it has exactly the cells of a row, or both the line it opens on and the line it closes
 * on have. `lineEnd` is where the line it closes on ends, -1 where that is too far to matter.
 */
export function rowsSwallowed(
  text: string,
  open: number,
  close: number,
  lineEnd: number,
  delimiter: number,
  usualCells: number
): boolean {
  if (usualCells < narrowestGuarded) return false;
  let end = text.indexOf('\n', open);
  const firstFits = cellsBetween(text, text.lastIndexOf('\n', open) + 1, end, delimiter) === usualCells;
  for (;;) {
    const start = end + 1;
    end = text.indexOf('\n', start);
    if (end < 0 || end > close) {
      return firstFits && lineEnd >= 0 && cellsBetween(text, start, lineEnd, delimiter) === usualCells;
    }
    if (cellsBetween(text, start, end, delimiter) === usualCells) return true;
  }
}

function cellsBetween(text: string, from: number, to: number, delimiter: number): number {
  let cells = 1;
  for (let at = from; at < to; at++) if (text.charCodeAt(at) === delimiter) cells++;
  return cells;
}
