import { compensatedSum } from './sums.ts';

export interface Moments {
  /** How many values were not NaN. */
  readonly n: number;
  /** NaN when n is 0. */
  readonly mean: number;
  /** Divisor n - 1; NaN when n is below 2. */
  readonly variance: number;
  readonly standardDeviation: number;
}

function countPresent(values: ArrayLike<number>): number {
  let n = 0;
  for (let i = 0; i < values.length; i += 1) if (!Number.isNaN(values[i])) n += 1;
  return n;
}

/**
 * Count, mean, variance and standard deviation of the values that are not NaN, in two centred passes with the
 * correction for the rounding of the mean (Chan, Golub, LeVeque 1983, Am Stat 37:242).
 */
export function moments(values: ArrayLike<number>): Moments {
  const n = countPresent(values);
  if (n === 0) return { n, mean: NaN, variance: NaN, standardDeviation: NaN };
  const rough = compensatedSum(values) / n;
  let squares = 0;
  let drift = 0;
  for (let i = 0; i < values.length; i += 1) {
    const deviation = (values[i] ?? NaN) - rough;
    if (Number.isNaN(deviation)) continue;
    squares += deviation * deviation;
    drift += deviation;
  }
  const variance = n < 2 ? NaN : Math.max(0, (squares - (drift * drift) / n) / (n - 1));
  return { n, mean: rough + drift / n, variance, standardDeviation: Math.sqrt(variance) };
}

/** Mean of the values that are not NaN; NaN for none. */
export function mean(values: ArrayLike<number>): number {
  return moments(values).mean;
}

/** Standard deviation (divisor n - 1) of the values that are not NaN; NaN for fewer than two. */
export function standardDeviation(values: ArrayLike<number>): number {
  return moments(values).standardDeviation;
}

/** Mean with weights >= 0; pairs with a NaN in either are left out; NaN if no weight is left. */
export function weightedMean(values: ArrayLike<number>, weights: ArrayLike<number>): number {
  let sum = 0;
  let total = 0;
  for (let i = 0; i < values.length; i += 1) {
    const value = values[i] ?? NaN;
    const weight = weights[i] ?? NaN;
    if (Number.isNaN(value) || Number.isNaN(weight)) continue;
    sum += weight * value;
    total += weight;
  }
  return total > 0 ? sum / total : NaN;
}
