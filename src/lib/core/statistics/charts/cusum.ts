export interface CusumOptions {
  readonly target: number;
  /** Slack, in units of the values: half the shift to be found. */
  readonly slack: number;
  /** Decision limit, in units of the values; see `cusumLimitFor`. */
  readonly limit: number;
}

export interface CusumChart {
  readonly high: Float64Array;
  readonly low: Float64Array;
  /** Periods since each sum was last 0. */
  readonly highRun: Int32Array;
  readonly lowRun: Int32Array;
  /** Indices of present values at which a sum is above the limit, from 0. */
  readonly signals: readonly number[];
}

function oneSide(
  values: ArrayLike<number>,
  excess: (value: number) => number
): { sum: Float64Array; run: Int32Array } {
  const sum = new Float64Array(values.length);
  const run = new Int32Array(values.length);
  for (let t = 0; t < values.length; t += 1) {
    const value = values[t] ?? NaN;
    const before = t === 0 ? 0 : (sum[t - 1] ?? 0);
    const runBefore = t === 0 ? 0 : (run[t - 1] ?? 0);
    const missing = Number.isNaN(value);
    const now = missing ? before : Math.max(0, before + excess(value));
    sum[t] = now;
    run[t] = missing ? runBefore : now > 0 ? runBefore + 1 : 0;
  }
  return { sum, run };
}

/**
 * Tabular two-sided cumulative sum (NIST/SEMATECH e-Handbook 6.3.2.3). A missing value (NaN) changes neither sums
 * nor run counters.
 */
export function cusum(values: ArrayLike<number>, options: CusumOptions): CusumChart {
  const { target, slack, limit } = options;
  const high = oneSide(values, (value) => value - target - slack);
  const low = oneSide(values, (value) => target - slack - value);
  const signals = Array.from(values, (_, t) => t).filter(
    (t) => !Number.isNaN(values[t]) && ((high.sum[t] ?? 0) > limit || (low.sum[t] ?? 0) > limit)
  );
  return { high: high.sum, low: low.sum, highRun: high.run, lowRun: low.run, signals };
}

/** Index of the first value of the run that led to a signal: the likely onset of the change. */
export function cusumOnset(chart: CusumChart, signal: number): number {
  const side = (chart.high[signal] ?? 0) >= (chart.low[signal] ?? 0) ? chart.high : chart.low;
  for (let t = signal; t > 0; t -= 1) if (side[t - 1] === 0) return t;
  return 0;
}
