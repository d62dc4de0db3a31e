import { nice as niceTicks } from 'd3';

/**
 * The domain of a scale: the one asked for, or the span of the finite values, opened to hold zero where asked and
 * rounded outwards to a whole step. Nothing finite gives [0, 1]; one single value gets room on both sides.
 */
export function spanOf(
  values: Iterable<number>,
  options: { asked?: readonly [number, number] | undefined; zero?: boolean; symmetric?: boolean } = {}
): [number, number] {
  if (options.asked) return [options.asked[0], options.asked[1]];
  let low = Infinity;
  let high = -Infinity;
  for (const value of values) {
    if (!Number.isFinite(value)) continue;
    low = Math.min(low, value);
    high = Math.max(high, value);
  }
  if (low > high) return [0, 1];
  if (options.zero === true) {
    low = Math.min(0, low);
    high = Math.max(0, high);
  }
  if (options.symmetric === true) {
    high = Math.max(Math.abs(low), Math.abs(high));
    low = -high;
  }
  if (low === high) {
    const room = Math.abs(low) > 0 ? Math.abs(low) * 0.1 : 1;
    low -= room;
    high += room;
  }
  return niceTicks(low, high, 8);
}
