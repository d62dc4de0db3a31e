/** A place in a grid; row -1 is the header. */
export interface GridPlace {
  row: number;
  column: number;
}

/**
 * Where a key leads in a grid (W3C grid pattern): arrows by cell, home and end along the row, with control to the first
 * and last row, page keys by a view.
 *
 * @returns the new place; null where the key means nothing here
 */
export function gridMove(
  from: GridPlace,
  key: string,
  control: boolean,
  size: { rows: number; columns: number; page: number }
): GridPlace | null {
  const to = target(from, key, control, size);
  if (to === null) return null;
  return {
    row: Math.max(-1, Math.min(to.row, size.rows - 1)),
    column: Math.max(0, Math.min(to.column, size.columns - 1))
  };
}

function target(
  { row, column }: GridPlace,
  key: string,
  control: boolean,
  size: { rows: number; columns: number; page: number }
): GridPlace | null {
  switch (key) {
    case 'ArrowDown':
      return { row: row + 1, column };
    case 'ArrowUp':
      return { row: row - 1, column };
    case 'ArrowRight':
      return { row, column: column + 1 };
    case 'ArrowLeft':
      return { row, column: column - 1 };
    case 'PageDown':
      return { row: row + size.page, column };
    case 'PageUp':
      return { row: Math.max(0, row - size.page), column };
    case 'Home':
      return control ? { row: 0, column: 0 } : { row, column: 0 };
    case 'End':
      return control ? { row: size.rows - 1, column: size.columns - 1 } : { row, column: size.columns - 1 };
    default:
      return null;
  }
}
