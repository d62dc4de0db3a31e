import { tooFew, type Estimate } from './estimable.ts';
import { quantileSorted, sortedPresent } from './quantiles.ts';

export interface Box {
  readonly n: number;
  readonly lowerQuartile: number;
  readonly median: number;
  readonly upperQuartile: number;
  /** The outermost values within 1.5 interquartile ranges of the box. */
  readonly lowerWhisker: number;
  readonly upperWhisker: number;
  /** The values beyond the whiskers, ascending. */
  readonly beyond: Float64Array;
}

/**
 * Tukey's box (1977) with type 7 quartiles. One value is enough; when a box is worth drawing is the caller's rule.
 */
export function boxSummary(values: ArrayLike<number>): Estimate<Box> {
  const sorted = sortedPresent(values);
  if (sorted.length === 0) return tooFew(0, 1);
  const lowerQuartile = quantileSorted(sorted, 0.25);
  const upperQuartile = quantileSorted(sorted, 0.75);
  const reach = 1.5 * (upperQuartile - lowerQuartile);
  const inside = sorted.filter((v) => v >= lowerQuartile - reach && v <= upperQuartile + reach);
  return {
    estimable: true,
    n: sorted.length,
    lowerQuartile,
    median: quantileSorted(sorted, 0.5),
    upperQuartile,
    lowerWhisker: inside[0] ?? NaN,
    upperWhisker: inside[inside.length - 1] ?? NaN,
    beyond: sorted.filter((v) => v < lowerQuartile - reach || v > upperQuartile + reach)
  };
}
