import { notEstimable, tooFew, type Estimate } from './estimable.ts';

/** One stratum on both sides of a moment. */
export interface PairedStratum {
  readonly code: number;
  readonly n1: number;
  readonly n2: number;
  readonly mean1: number;
  readonly mean2: number;
}

export interface PairedStep {
  /** Strata with values on both sides, in order of their codes. */
  readonly strata: readonly PairedStratum[];
  readonly n1: number;
  readonly n2: number;
  /** Values of strata that have one side only, and tell nothing. */
  readonly alone1: number;
  readonly alone2: number;
  /** Side 2 less side 1 inside strata, each weighing as much as it tells: n1 n2 / (n1 + n2). */
  readonly difference: number;
  readonly standardError: number;
  /** Standard deviation inside strata and its degrees of freedom, on each side. */
  readonly spread1: number;
  readonly spread2: number;
  readonly df1: number;
  readonly df2: number;
  /** Values less the mean of their stratum and side. */
  readonly residuals1: Float64Array;
  readonly residuals2: Float64Array;
}

/** Fewer degrees of freedom on a side give no spread worth its name. */
const FEWEST_DF = 10;

interface Sums {
  n: [number, number];
  mean: [number, number];
}

function sumsOf(values: Float64Array, stratum: Int32Array, side: Uint8Array): Map<number, Sums> {
  const found = new Map<number, Sums>();
  for (let i = 0; i < values.length; i++) {
    const code = stratum[i] ?? 0;
    const sums = found.get(code) ?? { n: [0, 0], mean: [0, 0] };
    const at = side[i] === 1 ? 1 : 0;
    sums.n[at]++;
    sums.mean[at] += ((values[i] ?? NaN) - sums.mean[at]) / sums.n[at];
    found.set(code, sums);
  }
  return found;
}

function standardDeviation(residuals: Float64Array, df: number): number {
  return Math.sqrt(residuals.reduce((sum, value) => sum + value * value, 0) / df);
}

/**
 * A step between two sides inside strata that each keep a level of their own: least squares with one level a stratum,
 * each side with its own spread. Only strata with values on both sides take part. `side` is 0 before and 1 after; no
 * value may be missing.
 */
export function pairedStep(
  values: Float64Array,
  stratum: Int32Array,
  side: Uint8Array
): Estimate<PairedStep> {
  const sums = sumsOf(values, stratum, side);
  const isPaired = (code: number) => sums.get(code)?.n.every((n) => n > 0) === true;
  const residuals: [number[], number[]] = [[], []];
  const alone: [number, number] = [0, 0];
  for (let i = 0; i < values.length; i++) {
    const code = stratum[i] ?? 0;
    const at = side[i] === 1 ? 1 : 0;
    if (isPaired(code)) residuals[at].push((values[i] ?? NaN) - (sums.get(code)?.mean[at] ?? NaN));
    else alone[at]++;
  }
  const strata = [...sums]
    .filter(([code]) => isPaired(code))
    .sort(([p], [q]) => p - q)
    .map(([code, { n, mean }]) => ({ code, n1: n[0], n2: n[1], mean1: mean[0], mean2: mean[1] }));
  if (strata.length === 0) return notEstimable('not-separable', 0);
  const [n1, n2] = [residuals[0].length, residuals[1].length];
  const [df1, df2] = [n1 - strata.length, n2 - strata.length];
  if (Math.min(df1, df2) < FEWEST_DF) return tooFew(Math.min(df1, df2), FEWEST_DF);
  const [residuals1, residuals2] = [Float64Array.from(residuals[0]), Float64Array.from(residuals[1])];
  const spread1 = standardDeviation(residuals1, df1);
  const spread2 = standardDeviation(residuals2, df2);
  let weights = 0;
  let difference = 0;
  let variance = 0;
  for (const each of strata) {
    const weight = (each.n1 * each.n2) / (each.n1 + each.n2);
    weights += weight;
    difference += weight * (each.mean2 - each.mean1);
    variance += weight ** 2 * (spread1 ** 2 / each.n1 + spread2 ** 2 / each.n2);
  }
  return {
    estimable: true,
    strata,
    n1,
    n2,
    alone1: alone[0],
    alone2: alone[1],
    difference: difference / weights,
    standardError: Math.sqrt(variance) / weights,
    spread1,
    spread2,
    df1,
    df2,
    residuals1,
    residuals2
  };
}
