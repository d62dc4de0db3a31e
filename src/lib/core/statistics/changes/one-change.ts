import { tooFew, type Estimate } from '../estimable.ts';
import { presentSeries, requireSigma, runningSums, segmentMean, segmentSquares } from './series.ts';
import { scanTail } from './scan-tail.ts';

export interface OneChange {
  /** How many present values come before the likeliest change. */
  readonly before: number;
  /** Where the first value after it stands in the series. */
  readonly index: number;
  /** The largest standardised difference over all splits. */
  readonly statistic: number;
  /** Chance of that much in an unchanged series. */
  readonly pValue: number;
  readonly meanBefore: number;
  readonly meanAfter: number;
  /** Sum of squares about one mean, and about the two. */
  readonly squaresWithout: number;
  readonly squaresWith: number;
}

/**
 * The likeliest single step of the level, with noise of a known sigma (pooled over like series, or
 * `noiseFromDifferences`). At least `margin` values on each side; missing values are passed over.
 */
export function oneChange(series: ArrayLike<number>, sigma: number, margin = 2): Estimate<OneChange> {
  requireSigma(sigma);
  const { values, index } = presentSeries(series);
  const n = values.length;
  if (n < 2 * margin) return tooFew(n, 2 * margin);
  const running = runningSums(values);
  let before = margin;
  let statistic = -1;
  for (let k = margin; k <= n - margin; k += 1) {
    const t = Math.abs(running.sums[k] ?? NaN) / (sigma * Math.sqrt((k * (n - k)) / n));
    if (t > statistic) [before, statistic] = [k, t];
  }
  return {
    estimable: true,
    before,
    index: index[before] ?? NaN,
    statistic,
    pValue: scanTail(statistic, n, margin),
    meanBefore: segmentMean(running, 0, before),
    meanAfter: segmentMean(running, before, n),
    squaresWithout: segmentSquares(running, 0, n),
    squaresWith: segmentSquares(running, 0, before) + segmentSquares(running, before, n)
  };
}
