import { describe, expect, it } from 'vitest';
import { gridMove } from '#lib/ui/grid-keys.ts';

const size = { rows: 100, columns: 5, page: 20 };
const at = (row: number, column: number) => ({ row, column });

describe('gridMove, by the W3C grid pattern', () => {
  it.each([
    ['down goes one row on', at(0, 2), 'ArrowDown', false, at(1, 2)],
    ['down stops at the last row', at(99, 2), 'ArrowDown', false, at(99, 2)],
    ['up from the first row reaches the header', at(0, 2), 'ArrowUp', false, at(-1, 2)],
    ['right stops at the last column', at(3, 4), 'ArrowRight', false, at(3, 4)],
    ['left goes one column back', at(3, 4), 'ArrowLeft', false, at(3, 3)],
    ['page down goes a view on', at(3, 0), 'PageDown', false, at(23, 0)],
    ['page up stops at the first row, not the header', at(3, 0), 'PageUp', false, at(0, 0)],
    ['home goes to the first column', at(3, 4), 'Home', false, at(3, 0)],
    ['control home goes to the first cell', at(3, 4), 'Home', true, at(0, 0)],
    ['end goes to the last column', at(3, 0), 'End', false, at(3, 4)],
    ['control end goes to the last cell', at(3, 0), 'End', true, at(99, 4)],
    ['other keys mean nothing', at(3, 0), 'x', false, null]
  ])('%s', (_title, from, key, control, expected) => {
    expect(gridMove(from, key, control, size)).toEqual(expected);
  });
});
