/** A place in a chart that the keyboard and the pointer can reach. */
export interface FocusPoint {
  /** The datum's key. */
  key: string;
  /** Centre in the pixels of the drawing. */
  x: number;
  y: number;
  /** The datum in words, as in the table twin. */
  words: string;
  /** Where the page keys stop. */
  signal?: boolean;
  /** What the points of neighbouring series are matched by; x if left out. */
  slot?: number;
  /** Half size of the mark in px; 6 if left out. */
  r?: number;
}

export interface Place {
  series: number;
  point: number;
}

/** Which distance counts for the pointer: to the point, or only across rows or columns. */
export type Reach = 'point' | 'row' | 'column';

const FARTHEST_PX = 28;

/**
 * Where a key leads: left and right between points, up and down between series (or points where there is one series),
 * home and end to the ends, page keys to the next or last signal.
 *
 * @returns the new place; null where the key means nothing or leads nowhere
 */
export function moveFocus(
  series: readonly (readonly FocusPoint[])[],
  from: Place | null,
  key: string
): Place | null {
  const start = firstPlace(series);
  if (start === null) return null;
  if (!KEYS.has(key)) return null;
  if (from === null) return key === 'End' ? lastOf(series, start.series) : start;
  switch (key) {
    case 'ArrowRight':
      return step(series, from, 1);
    case 'ArrowLeft':
      return step(series, from, -1);
    case 'ArrowDown':
      return series.length === 1 ? step(series, from, 1) : across(series, from, 1);
    case 'ArrowUp':
      return series.length === 1 ? step(series, from, -1) : across(series, from, -1);
    case 'Home':
      return { series: from.series, point: 0 };
    case 'End':
      return lastOf(series, from.series);
    case 'PageDown':
      return signal(series, from, 1);
    default:
      return signal(series, from, -1);
  }
}

const KEYS = new Set([
  'ArrowRight',
  'ArrowLeft',
  'ArrowDown',
  'ArrowUp',
  'Home',
  'End',
  'PageDown',
  'PageUp'
]);

/** The point nearest to a pointer, or null when none is within reach (28 px; any distance along a row or column). */
export function nearestPlace(
  series: readonly (readonly FocusPoint[])[],
  x: number,
  y: number,
  reach: Reach = 'point'
): Place | null {
  let best: Place | null = null;
  let least = FARTHEST_PX;
  series.forEach((points, s) => {
    points.forEach((point, p) => {
      const distance =
        reach === 'row'
          ? Math.abs(point.y - y)
          : reach === 'column'
            ? Math.abs(point.x - x)
            : Math.hypot(point.x - x, point.y - y);
      if (distance < least) {
        least = distance;
        best = { series: s, point: p };
      }
    });
  });
  return best;
}

/** The point at a place; undefined when the data under it have changed. */
export function pointAt(
  series: readonly (readonly FocusPoint[])[],
  place: Place | null
): FocusPoint | undefined {
  return place === null ? undefined : series[place.series]?.[place.point];
}

function firstPlace(series: readonly (readonly FocusPoint[])[]): Place | null {
  const index = series.findIndex((points) => points.length > 0);
  return index < 0 ? null : { series: index, point: 0 };
}

function lastOf(series: readonly (readonly FocusPoint[])[], index: number): Place {
  return { series: index, point: Math.max(0, (series[index]?.length ?? 1) - 1) };
}

function step(series: readonly (readonly FocusPoint[])[], from: Place, by: number): Place | null {
  const point = from.point + by;
  return series[from.series]?.[point] === undefined ? null : { series: from.series, point };
}

function across(series: readonly (readonly FocusPoint[])[], from: Place, by: number): Place | null {
  const here = pointAt(series, from);
  for (let s = from.series + by; s >= 0 && s < series.length; s += by) {
    const points = series[s] ?? [];
    if (points.length === 0) continue;
    const distances = points.map((candidate) => Math.abs(slotOf(candidate) - slotOf(here)));
    const point = distances.indexOf(Math.min(...distances));
    return { series: s, point };
  }
  return null;
}

function slotOf(point: FocusPoint | undefined): number {
  return point?.slot ?? point?.x ?? 0;
}

function signal(series: readonly (readonly FocusPoint[])[], from: Place, by: number): Place | null {
  const points = series[from.series] ?? [];
  for (let p = from.point + by; p >= 0 && p < points.length; p += by) {
    if (points[p]?.signal === true) return { series: from.series, point: p };
  }
  return null;
}
