import { runSteps, stretches, type Steps } from '../steps.ts';
import type { CrossedRecords } from './design.ts';
import type { CrossedFit } from './fit.ts';

export interface PeriodMeans {
  readonly periods: number;
  /** By level of factor a x periods + period: mean of y - mean - effect of b; NaN = no record. */
  readonly mean: Float64Array;
  /** Error variance of that mean: sigma^2 / weight + mean error variance of the b effects taken off + wobble. */
  readonly variance: Float64Array;
  readonly records: Int32Array;
}

export interface PeriodOptions {
  /** Relative precision of each record, 0 to leave it out; 1 when left out. */
  readonly weights?: ArrayLike<number>;
  /** Real period-to-period variance, from `periodWobble`. */
  readonly wobble?: number;
}

/**
 * The series of each level of factor a by period with the effects of factor b taken off, each with its variance: what
 * a chart of drift needs. Swap a and b in records and fit for the other factor.
 */
export function adjustedPeriodMeans(
  records: CrossedRecords,
  period: ArrayLike<number>,
  periods: number,
  fit: Pick<CrossedFit, 'mean' | 'sigma' | 'a' | 'b'>,
  options: PeriodOptions = {}
): PeriodMeans {
  return runSteps(adjustedPeriodMeansSteps(records, period, periods, fit, options));
}

/** The same in steps. */
export function* adjustedPeriodMeansSteps(
  records: CrossedRecords,
  period: ArrayLike<number>,
  periods: number,
  fit: Pick<CrossedFit, 'mean' | 'sigma' | 'a' | 'b'>,
  options: PeriodOptions = {}
): Steps<PeriodMeans> {
  const cells = fit.a.effect.length * periods;
  const weight = new Float64Array(cells);
  const sum = new Float64Array(cells);
  const errors = new Float64Array(cells);
  const count = new Int32Array(cells);
  yield* stretches(records.y.length, (from, to) => {
    for (let k = from; k < to; k += 1) {
      const b = records.b[k] ?? -1;
      const value = (records.y[k] ?? NaN) - fit.mean - (fit.b.effect[b] ?? NaN);
      const w = options.weights === undefined ? 1 : (options.weights[k] ?? NaN);
      const t = period[k] ?? -1;
      const a = records.a[k] ?? -1;
      if (!(w > 0) || Number.isNaN(value) || !(t >= 0 && t < periods) || a < 0) continue;
      const cell = a * periods + t;
      weight[cell] = (weight[cell] ?? 0) + w;
      sum[cell] = (sum[cell] ?? 0) + w * value;
      errors[cell] = (errors[cell] ?? 0) + (fit.b.standardError[b] ?? NaN) ** 2;
      count[cell] = (count[cell] ?? 0) + 1;
    }
  });
  const wobble = options.wobble ?? 0;
  return {
    periods,
    mean: sum.map((s, cell) => s / (weight[cell] ?? NaN)),
    variance: errors.map(
      (e, cell) => fit.sigma ** 2 / (weight[cell] ?? NaN) + e / (count[cell] ?? NaN) + wobble
    ),
    records: count
  };
}
