/** Half length of a whisker's end stroke, px. */
const CAP_PX = 4;

/**
 * The path of a whisker: a line with a stroke across each end, or with an arrow head where it leaves the scale.
 *
 * @param low first end in px along the scale, in any order with `high`
 * @param across the other coordinate in px
 * @param range the scale's ends in px
 * @returns an SVG path; empty when an end is missing
 */
export function whiskerPath(
  low: number,
  high: number,
  across: number,
  range: readonly [number, number],
  standing = false
): string {
  if (!Number.isFinite(low) || !Number.isFinite(high)) return '';
  const least = Math.min(...range);
  const most = Math.max(...range);
  const from = Math.min(low, high);
  const to = Math.max(low, high);
  const point = (along: number, side: number) =>
    standing ? `${px(across + side)} ${px(along)}` : `${px(along)} ${px(across + side)}`;
  const start = clampPx(from, range);
  const end = clampPx(to, range);
  const head = (at: number, beyond: boolean, inward: number) =>
    beyond
      ? `M${point(at + inward * CAP_PX, -CAP_PX)}L${point(at, 0)}L${point(at + inward * CAP_PX, CAP_PX)}`
      : `M${point(at, -CAP_PX)}L${point(at, CAP_PX)}`;
  return `M${point(start, 0)}L${point(end, 0)}${head(start, from < least, 1)}${head(end, to > most, -1)}`;
}

/** A place kept on the scale. */
export function clampPx(along: number, range: readonly [number, number]): number {
  return Math.min(Math.max(along, Math.min(...range)), Math.max(...range));
}

function px(value: number): string {
  return String(Math.round(value * 100) / 100);
}
