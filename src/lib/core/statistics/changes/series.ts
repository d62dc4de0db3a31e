import { MAD_FACTOR } from '../robust-location.ts';
import { median } from '../quantiles.ts';

/** The present values of a series and where each stands in it. */
export interface PresentSeries {
  readonly values: Float64Array;
  readonly index: Int32Array;
}

export function presentSeries(series: ArrayLike<number>): PresentSeries {
  const index = Int32Array.from(Array.from(series, (_, i) => i).filter((i) => !Number.isNaN(series[i])));
  return { values: Float64Array.from(index, (i) => series[i] ?? NaN), index };
}

export function requireSigma(sigma: number): void {
  if (!(sigma > 0 && sigma < Infinity)) throw new RangeError(`sigma: ${sigma}, need more than 0`);
}

/**
 * Noise of a series that steps now and then: 1.4826 median |x_i - x_(i-1)| / sqrt 2 over present neighbours, centred
 * at 0 so that a few steps do not count. NaN without neighbours.
 */
export function noiseFromDifferences(series: ArrayLike<number>): number {
  const steps = Float64Array.from(series, (value, i) =>
    i === 0 ? NaN : Math.abs(value - (series[i - 1] ?? NaN))
  );
  return (MAD_FACTOR * median(steps)) / Math.SQRT2;
}

/** Running sums and sums of squares of the values less their mean: [0], [0 + 1], ... with a leading 0. */
export interface RunningSums {
  readonly sums: Float64Array;
  readonly squares: Float64Array;
  readonly mean: number;
}

export function runningSums(values: Float64Array): RunningSums {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  const sums = new Float64Array(values.length + 1);
  const squares = new Float64Array(values.length + 1);
  values.forEach((value, i) => {
    const deviation = value - mean;
    sums[i + 1] = (sums[i] ?? 0) + deviation;
    squares[i + 1] = (squares[i] ?? 0) + deviation * deviation;
  });
  return { sums, squares, mean };
}

/** Sum of squares of the values [from, to) about their own mean. */
export function segmentSquares(running: RunningSums, from: number, to: number): number {
  const sum = (running.sums[to] ?? NaN) - (running.sums[from] ?? NaN);
  const squares = (running.squares[to] ?? NaN) - (running.squares[from] ?? NaN);
  return Math.max(0, squares - (sum * sum) / (to - from));
}

/** Mean of the values [from, to). */
export function segmentMean(running: RunningSums, from: number, to: number): number {
  return running.mean + ((running.sums[to] ?? NaN) - (running.sums[from] ?? NaN)) / (to - from);
}
