import { notEstimable, type Estimate } from './estimable.ts';
import { compensatedSum } from './sums.ts';

export interface MomentRates {
  readonly pooledRate: number;
  /** Variance of true rates between units, 0 where chance explains all. */
  readonly betweenVariance: number;
  /** Each unit's rate drawn towards the pooled one; NaN without exposure. */
  readonly rates: Float64Array;
}

/**
 * Global moment estimates of true rates (Marshall 1991, Applied Statistics 40:283): the cheap check on
 * `shrinkRates`.
 */
export function marshallRates(events: ArrayLike<number>, exposure: ArrayLike<number>): Estimate<MomentRates> {
  const rate = Float64Array.from(events, (y, i) => {
    const e = exposure[i] ?? NaN;
    return e > 0 ? y / e : NaN;
  });
  const units = Array.from(rate, (_, i) => i).filter((i) => !Number.isNaN(rate[i]));
  const sum = (of: (rate: number, exposure: number) => number): number =>
    compensatedSum(units.map((i) => of(rate[i] ?? NaN, exposure[i] ?? NaN)));
  const total = sum((_, e) => e);
  if (!(total > 0)) return notEstimable('no-exposure', 0);
  const pooledRate = sum((r, e) => r * e) / total;
  const spread = sum((r, e) => e * (r - pooledRate) ** 2) / total;
  const betweenVariance = Math.max(0, spread - (pooledRate * units.length) / total);
  const rates = rate.map((r, i) => {
    const within = pooledRate / (exposure[i] ?? NaN);
    const share = betweenVariance > 0 ? betweenVariance / (betweenVariance + within) : 0;
    return pooledRate + share * (r - pooledRate);
  });
  return { estimable: true, pooledRate, betweenVariance, rates };
}
