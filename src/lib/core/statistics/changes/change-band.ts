import { presentSeries, requireSigma, runningSums } from './series.ts';

export interface ChangeBand {
  /** Where the first and last likely start of the new level stand in the series. */
  readonly first: number;
  readonly last: number;
}

/** Half the 95 % quantile of chi-square with one degree of freedom, as in a profile likelihood interval. */
const LIKELIHOOD_LOSS = 1.92;

/**
 * The splits of a series that fit about as well as the best one: log likelihood within 1.92 of it, with noise of a
 * known sigma and at least `margin` values on each side. Null for a series too short. An interval by likelihood: near
 * the best split its coverage is close to 95 %, not exact.
 */
export function changeBand(series: ArrayLike<number>, sigma: number, margin = 2): ChangeBand | null {
  requireSigma(sigma);
  const { values, index } = presentSeries(series);
  const n = values.length;
  if (n < 2 * margin) return null;
  const { sums } = runningSums(values);
  const likelihood = Array.from({ length: n - 2 * margin + 1 }, (_none, i) => {
    const k = i + margin;
    return (sums[k] ?? NaN) ** 2 / (2 * sigma * sigma * ((k * (n - k)) / n));
  });
  const best = Math.max(...likelihood);
  const fits = likelihood.map((value) => best - value <= LIKELIHOOD_LOSS);
  return {
    first: index[fits.indexOf(true) + margin] ?? NaN,
    last: index[fits.lastIndexOf(true) + margin] ?? NaN
  };
}
