/**
 * Scrolling through more rows than a browser lets one element be tall. The element is at most `TALLEST_PX` high; a small
 * movement moves the rows by as many px, a large one (the bar dragged, a jump) in proportion. Near both ends the
 * element and the rows agree px for px, so that the first and last rows are reached as gently as any others.
 */
export interface Extent {
  /** All rows together, px. */
  contentPx: number;
  /** What is seen of them, px. */
  viewPx: number;
}

export interface Scroll {
  /** The element's own scroll position. */
  top: number;
  /** What must be added to it to get the place among the rows. */
  offset: number;
}

/** Below the least limit met in the large browsers (about 17.9 million px), with room for a zoomed page. */
export const TALLEST_PX = 4_000_000;

/** How far from each end the two agree px for px. */
const EXACT_PX = 100_000;

/** Movements up to this many views are by px, larger ones in proportion. */
const BY_PX_VIEWS = 2;

export const AT_TOP: Scroll = { top: 0, offset: 0 };

/** The height of the element that stands for all rows, px. */
export function spacerPx(extent: Extent): number {
  return Math.min(extent.contentPx, TALLEST_PX);
}

/** The place among the rows, px from the first row's top. */
export function placeOf(scroll: Scroll): number {
  return scroll.top + scroll.offset;
}

/** The state after the element was scrolled to `top`, by whomever. */
export function scrolledTo(extent: Extent, scroll: Scroll, top: number): Scroll {
  const ends = endsOf(extent);
  if (ends.top === ends.place) return { top, offset: 0 };
  const moved = top - scroll.top;
  const far = Math.abs(moved) > BY_PX_VIEWS * extent.viewPx;
  // The element's own ends are the rows' ends, or some rows could never be reached.
  const atEnd = top <= 0 || top >= ends.top;
  const place = far || atEnd ? placeAt(top, ends) : placeOf(scroll) + moved;
  return { top, offset: clamp(place, ends.place) - top };
}

/** The state that shows a place, with the element where the place belongs in proportion. */
export function showing(extent: Extent, place: number): Scroll {
  const ends = endsOf(extent);
  const inside = clamp(place, ends.place);
  const top = topAt(inside, ends);
  return { top, offset: inside - top };
}

/** The place that brings a row into view with the least movement. */
export function placeForRow(extent: Extent, scroll: Scroll, row: number, rowPx: number): number {
  const place = placeOf(scroll);
  const rowTop = row * rowPx;
  if (rowTop < place) return rowTop;
  return Math.max(place, rowTop + rowPx - extent.viewPx);
}

/** First and one past the last row in view, with some to spare on both sides. */
export function rowsInView(
  extent: Extent,
  scroll: Scroll,
  rowPx: number,
  count: number,
  spare = 6
): { first: number; end: number } {
  const place = placeOf(scroll);
  return {
    first: Math.max(0, Math.floor(place / rowPx) - spare),
    end: Math.min(count, Math.ceil((place + extent.viewPx) / rowPx) + spare)
  };
}

interface Ends {
  top: number;
  place: number;
}

/** Px at each end that map one to one. */
function exactPx(ends: Ends): number {
  return Math.min(EXACT_PX, ends.top / 4);
}

function placeAt(top: number, ends: Ends): number {
  const exact = exactPx(ends);
  if (top <= exact) return top;
  if (top >= ends.top - exact) return ends.place - (ends.top - top);
  return exact + ((top - exact) / (ends.top - 2 * exact)) * (ends.place - 2 * exact);
}

function topAt(place: number, ends: Ends): number {
  const exact = exactPx(ends);
  if (place <= exact) return place;
  if (place >= ends.place - exact) return ends.top - (ends.place - place);
  return exact + ((place - exact) / (ends.place - 2 * exact)) * (ends.top - 2 * exact);
}

function endsOf(extent: Extent): Ends {
  return {
    top: Math.max(0, spacerPx(extent) - extent.viewPx),
    place: Math.max(0, extent.contentPx - extent.viewPx)
  };
}

function clamp(value: number, most: number): number {
  return Math.min(Math.max(value, 0), most);
}
