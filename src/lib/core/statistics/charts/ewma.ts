import { outsideLimits } from './baseline.ts';

export interface EwmaOptions {
  readonly centre: number;
  /** Weight of the newest value, over 0 and at most 1. */
  readonly weight: number;
  /** Limit in standard deviations of the average; see `ewmaLimitFor`. */
  readonly limit: number;
  /** Variance of the centre where it was itself estimated: that of the baseline's mean. */
  readonly centreVariance?: number;
  /** More missing periods in a row than this start afresh at the centre. */
  readonly longestGap?: number;
}

export interface EwmaChart {
  /** The average after each period; carried over a missing one. */
  readonly average: Float64Array;
  readonly standardDeviation: Float64Array;
  readonly lower: Float64Array;
  readonly upper: Float64Array;
  /** (average - centre) / standard deviation: standard normal while nothing changed; NaN before the first value. */
  readonly zScore: Float64Array;
  /** Indices of present values at which the average is outside its limits, from 0. */
  readonly signals: readonly number[];
}

/**
 * Exponentially weighted moving average with exact limits (Roberts 1959, Technometrics 1:239; Lucas & Saccucci 1990,
 * Technometrics 32:1), each value with its own variance. A missing value (NaN) keeps average and variance; a gap
 * longer than `longestGap` (3) restarts. With an estimated centre the limits grow by its share in the average.
 */
export function ewmaUnequal(
  values: ArrayLike<number>,
  variances: ArrayLike<number>,
  options: EwmaOptions
): EwmaChart {
  const { centre, weight, limit, centreVariance = 0, longestGap = 3 } = options;
  if (!(weight > 0 && weight <= 1)) throw new RangeError(`weight: ${weight}, need over 0 and at most 1`);
  const average = new Float64Array(values.length);
  const standardDeviation = new Float64Array(values.length);
  let state = centre;
  let variance = 0;
  let share = 0;
  let gap = 0;
  for (let t = 0; t < values.length; t += 1) {
    const value = values[t] ?? NaN;
    if (Number.isNaN(value)) gap += 1;
    if (gap > longestGap) [state, variance, share] = [centre, 0, 0];
    if (!Number.isNaN(value)) {
      gap = 0;
      state += weight * (value - state);
      variance = weight ** 2 * (variances[t] ?? NaN) + (1 - weight) ** 2 * variance;
      share = weight + (1 - weight) * share;
    }
    average[t] = state;
    standardDeviation[t] = Math.sqrt(variance + share ** 2 * centreVariance);
  }
  const lower = standardDeviation.map((sd) => centre - limit * sd);
  const upper = standardDeviation.map((sd) => centre + limit * sd);
  return {
    average,
    standardDeviation,
    lower,
    upper,
    zScore: average.map((a, t) => (a - centre) / (standardDeviation[t] ?? NaN)),
    signals: outsideLimits(average, lower, upper).filter((t) => !Number.isNaN(values[t]))
  };
}

/** The same with one standard deviation for all values. */
export function ewma(values: ArrayLike<number>, sigma: number, options: EwmaOptions): EwmaChart {
  return ewmaUnequal(values, new Float64Array(values.length).fill(sigma * sigma), options);
}

/** Standard deviation the average settles at, for one standard deviation of the values. */
export function ewmaSteadyDeviation(sigma: number, weight: number): number {
  return sigma * Math.sqrt(weight / (2 - weight));
}
