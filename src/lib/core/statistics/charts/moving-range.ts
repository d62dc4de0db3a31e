/** Mean moving range of two over the standard deviation of a normal series (d2 of two values). */
export const MOVING_RANGE_FACTOR = 1.128;

export interface MovingRange {
  /** |x_i - x_(i-1)|; NaN at the start and on both sides of a missing value. */
  readonly ranges: Float64Array;
  /** NaN when no two neighbours are present. */
  readonly mean: number;
  readonly count: number;
}

/** Moving ranges of neighbours; a range across a gap would measure drift and is left out. */
export function movingRanges(values: ArrayLike<number>): MovingRange {
  const ranges = Float64Array.from(values, (value, i) =>
    i === 0 ? NaN : Math.abs(value - (values[i - 1] ?? NaN))
  );
  const present = ranges.filter((range) => !Number.isNaN(range));
  const mean = present.reduce((sum, range) => sum + range, 0) / present.length;
  return { ranges, mean, count: present.length };
}
