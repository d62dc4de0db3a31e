import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  AT_TOP,
  placeForRow,
  placeOf,
  rowsInView,
  scrolledTo,
  showing,
  spacerPx,
  TALLEST_PX
} from '#lib/ui/scaled-scroll.ts';

const ROW = 28;
const extentOf = (count: number) => ({ contentPx: count * ROW, viewPx: 500 });
const huge = extentOf(5_000_000);
const endTop = spacerPx(huge) - huge.viewPx;

describe('scrolling through more rows than an element can be tall', () => {
  it('keeps the element below the limit of browsers', () => {
    expect(spacerPx(huge)).toBe(TALLEST_PX);
    expect(spacerPx(extentOf(100))).toBe(2800);
  });

  it('is plain scrolling where all rows fit', () => {
    const scroll = scrolledTo(extentOf(1000), AT_TOP, 700);
    expect(scroll).toEqual({ top: 700, offset: 0 });
    expect(rowsInView(extentOf(1000), scroll, ROW, 1000, 0)).toEqual({ first: 25, end: 43 });
  });

  it('moves rows px for px on a small movement anywhere', () => {
    const middle = showing(huge, 70_000_000);
    const moved = scrolledTo(huge, middle, middle.top + 100);
    expect(placeOf(moved) - placeOf(middle)).toBeCloseTo(100, 6);
  });

  it('moves rows in proportion when the bar is dragged', () => {
    const half = scrolledTo(huge, AT_TOP, endTop / 2);
    expect(placeOf(half)).toBeCloseTo((huge.contentPx - huge.viewPx) / 2, -1);
  });

  it('reaches the first row at the element start and the last at its end', () => {
    expect(placeOf(scrolledTo(huge, showing(huge, 9e6), 0))).toBe(0);
    const end = scrolledTo(huge, AT_TOP, endTop);
    expect(rowsInView(huge, end, ROW, 5_000_000, 0).end).toBe(5_000_000);
  });

  it('does not jump over the rows near an end', () => {
    const near = showing(huge, 3500);
    expect(placeOf(scrolledTo(huge, near, near.top - 100))).toBeCloseTo(3400, 6);
  });

  it('shows any place with the element inside its own range, and settling moves nothing', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 140_000_000 }),
        fc.integer({ min: 1, max: 5_000_000 }),
        (place, count) => {
          const extent = extentOf(count);
          const scroll = showing(extent, place);
          const most = Math.max(0, spacerPx(extent) - extent.viewPx);
          expect(scroll.top).toBeGreaterThanOrEqual(0);
          expect(scroll.top).toBeLessThanOrEqual(most + 1e-6);
          expect(placeOf(scroll)).toBeCloseTo(
            Math.min(place, Math.max(0, extent.contentPx - extent.viewPx)),
            3
          );
          expect(placeOf(scrolledTo(extent, scroll, scroll.top))).toBeCloseTo(placeOf(scroll), 3);
        }
      ),
      { numRuns: 100 }
    );
  });

  it('brings a row into view with the least movement', () => {
    const at = showing(huge, 28_000);
    expect(placeForRow(huge, at, 1005, ROW)).toBe(28_000);
    expect(placeForRow(huge, at, 900, ROW)).toBe(900 * ROW);
    expect(placeForRow(huge, at, 1100, ROW)).toBe(1101 * ROW - 500);
  });
});
