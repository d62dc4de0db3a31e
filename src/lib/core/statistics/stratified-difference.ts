import { betaQuantile, normalQuantile } from './distributions.ts';
import { notEstimable, type Estimate } from './estimable.ts';
import { tailShare } from './proportions.ts';
import type { MeanStratum, Stratum } from './stratified.ts';
import { compensatedSum } from './sums.ts';

/** Two sides within common strata, the strata in the same proportions on both: the figures differ by `difference`. */
export interface StratifiedDifference {
  readonly value1: number;
  readonly value2: number;
  /** Side 1 less side 2. */
  readonly difference: number;
  readonly lower: number;
  readonly upper: number;
  /** Sum of the weights of the common strata, n1 n2 / (n1 + n2) each: what the comparison is worth. */
  readonly weight: number;
  readonly commonStrata: number;
}

/** Mantel and Haenszel's weight: a stratum with hardly anything on one side hardly counts. */
const weightOf = ({ n1, n2 }: { n1: number; n2: number }): number => (n1 * n2) / (n1 + n2);

const clamped = (value: number, low: number, high: number): number => Math.min(high, Math.max(low, value));

/**
 * The likeliest rate of side 2 where side 1 lies `difference` above it: the closed solution of the cubic in the
 * appendix of Miettinen & Nurminen 1985.
 */
function restrictedRate({ x1, n1, x2, n2 }: Stratum, difference: number): number {
  const size = n1 + n2;
  const square = (n1 + 2 * n2) * difference - size - x1 - x2;
  const linear = (n2 * difference - size - 2 * x2) * difference + x1 + x2;
  const constant = x2 * difference * (1 - difference);
  const third = square / (3 * size);
  const q = third ** 3 - (square * linear) / (6 * size * size) + constant / (2 * size);
  const p = (q < 0 ? -1 : 1) * Math.sqrt(Math.max(0, third * third - linear / (3 * size)));
  const angle = p === 0 ? 0 : (Math.PI + Math.acos(clamped(q / p ** 3, -1, 1))) / 3;
  return clamped(2 * p * Math.cos(angle) - third, Math.max(0, -difference), Math.min(1, 1 - difference));
}

/** The score of a supposed difference: how many of its standard errors the one found lies above it. */
function score(strata: readonly Stratum[], difference: number): number {
  let above = 0;
  let variance = 0;
  for (const stratum of strata) {
    const { x1, n1, x2, n2 } = stratum;
    const weight = weightOf(stratum);
    const rate2 = restrictedRate(stratum, difference);
    const rate1 = clamped(rate2 + difference, 0, 1);
    const size = n1 + n2;
    above += weight * (x1 / n1 - x2 / n2 - difference);
    variance += (weight ** 2 * ((rate1 * (1 - rate1)) / n1 + (rate2 * (1 - rate2)) / n2) * size) / (size - 1);
  }
  return above / Math.sqrt(variance);
}

/** Where the score passes a level between two differences; it falls as the supposed difference grows. */
function crossing(strata: readonly Stratum[], level: number, from: number, to: number): number {
  let [low, high] = [from, to];
  for (let step = 0; step < 50; step++) {
    const middle = (low + high) / 2;
    if (score(strata, middle) > level) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/**
 * Difference of two rates over common strata with Mantel-Haenszel weights and its score interval, which needs no
 * events to have a width (Miettinen & Nurminen 1985, Statistics in Medicine 4:213). One stratum is the plain
 * difference. Strata in which one side has nothing are left out.
 */
export function stratifiedRateDifference(
  strata: readonly Stratum[],
  confidence = 0.95
): Estimate<StratifiedDifference> {
  const common = strata.filter((s) => s.n1 > 0 && s.n2 > 0);
  if (common.length === 0) return notEstimable('not-separable', 0);
  const z = normalQuantile(1 - tailShare(confidence));
  const weight = compensatedSum(common.map(weightOf));
  const value1 = compensatedSum(common.map((s) => (weightOf(s) * s.x1) / s.n1)) / weight;
  const value2 = compensatedSum(common.map((s) => (weightOf(s) * s.x2) / s.n2)) / weight;
  const difference = value1 - value2;
  return {
    estimable: true,
    value1,
    value2,
    difference,
    lower: crossing(common, z, -1, difference),
    upper: crossing(common, -z, difference, 1),
    weight,
    commonStrata: common.length
  };
}

/** Two-sided quantile of Student's t, by its relation to the beta distribution. */
function studentQuantile(confidence: number, freedom: number): number {
  return Math.sqrt(freedom * (1 / betaQuantile(2 * tailShare(confidence), freedom / 2, 0.5) - 1));
}

/** Variance of the weighted sum of differences, each stratum's two sides sharing one spread. */
function meanVariance(common: readonly MeanStratum[]): { variance: number; freedom: number } {
  const parts = common.map((s) => {
    const freedom = s.n1 + s.n2 - 2;
    const squares = (s.n1 > 1 ? (s.n1 - 1) * s.variance1 : 0) + (s.n2 > 1 ? (s.n2 - 1) * s.variance2 : 0);
    return { freedom, variance: (weightOf(s) ** 2 * squares * (1 / s.n1 + 1 / s.n2)) / freedom };
  });
  const variance = compensatedSum(parts.map((part) => part.variance));
  const spread = compensatedSum(parts.map((part) => part.variance ** 2 / part.freedom));
  // Satterthwaite 1946, Biometrics Bulletin 2:110: the freedom of a sum of variances.
  return { variance, freedom: variance ** 2 / spread };
}

/**
 * Difference of two means over common strata with the same weights: a stratum's spread is that of both its sides
 * together, the interval Student's with Satterthwaite's degrees of freedom. A stratum takes part with a value on each
 * side and three in all, since fewer have no variance.
 */
export function stratifiedMeanDifference(
  strata: readonly MeanStratum[],
  confidence = 0.95
): Estimate<StratifiedDifference> {
  const common = strata.filter((s) => s.n1 > 0 && s.n2 > 0 && s.n1 + s.n2 > 2);
  if (common.length === 0) return notEstimable('not-separable', 0);
  const weight = compensatedSum(common.map(weightOf));
  const value1 = compensatedSum(common.map((s) => weightOf(s) * s.mean1)) / weight;
  const value2 = compensatedSum(common.map((s) => weightOf(s) * s.mean2)) / weight;
  const { variance, freedom } = meanVariance(common);
  const half = variance > 0 ? (studentQuantile(confidence, freedom) * Math.sqrt(variance)) / weight : 0;
  const difference = value1 - value2;
  return {
    estimable: true,
    value1,
    value2,
    difference,
    lower: difference - half,
    upper: difference + half,
    weight,
    commonStrata: common.length
  };
}
