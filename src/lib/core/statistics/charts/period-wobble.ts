import { tooFew, type Estimate } from '../estimable.ts';

/** Means of one unit by period with the counts behind them; NaN mean = missing period. */
export interface PeriodSeries {
  readonly means: ArrayLike<number>;
  readonly counts: ArrayLike<number>;
}

export interface Wobble {
  /** Variance of the true level from period to period, beyond what the counts explain; 0 is a valid answer. */
  readonly variance: number;
  /** Neighbouring pairs it rests on. */
  readonly pairs: number;
}

/**
 * Real period-to-period variance pooled over all units, by moments of neighbouring differences:
 * E (x_t - x_(t-1))^2 = 2 tau^2 + s^2 (1 / n_t + 1 / n_(t-1)). Without it a chart of large units alarms for ever.
 */
export function periodWobble(series: readonly PeriodSeries[], withinVariance: number): Estimate<Wobble> {
  let sum = 0;
  let pairs = 0;
  for (const { means, counts } of series) {
    for (let t = 1; t < means.length; t += 1) {
      const step = (means[t] ?? NaN) - (means[t - 1] ?? NaN);
      const chance = withinVariance * (1 / (counts[t] ?? NaN) + 1 / (counts[t - 1] ?? NaN));
      if (Number.isNaN(step) || !Number.isFinite(chance)) continue;
      sum += step * step - chance;
      pairs += 1;
    }
  }
  if (pairs === 0) return tooFew(0, 1);
  return { estimable: true, variance: Math.max(0, sum / (2 * pairs)), pairs };
}
