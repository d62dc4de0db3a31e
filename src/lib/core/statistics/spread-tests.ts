import { chiSquareUpper, fUpper, normalQuantile } from './distributions.ts';
import { notEstimable, tooFew, type Estimate } from './estimable.ts';
import { mean, moments } from './moments.ts';
import { median, sortedPresent } from './quantiles.ts';
import { averageRanks } from './ranks.ts';
import { compensatedSum } from './sums.ts';

type Groups = readonly ArrayLike<number>[];

export interface FTest {
  readonly f: number;
  readonly dfBetween: number;
  readonly dfWithin: number;
  readonly pValue: number;
}

export interface ChiSquareTest {
  readonly chiSquare: number;
  readonly df: number;
  readonly pValue: number;
}

/** Groups without NaN and without the empty ones, or why they cannot be compared. */
function comparable(groups: Groups): Float64Array[] | ReturnType<typeof tooFew> {
  const kept = groups.map((group) => sortedPresent(group)).filter((group) => group.length > 0);
  if (kept.length < 2) return tooFew(kept.length, 2);
  const n = kept.reduce((sum, group) => sum + group.length, 0);
  return n > kept.length ? kept : tooFew(n, kept.length + 1);
}

function analysisOfVariance(groups: readonly Float64Array[]): Estimate<FTest> {
  const summaries = groups.map((group) => moments(group));
  const n = summaries.reduce((sum, s) => sum + s.n, 0);
  const grand = compensatedSum(summaries.map((s) => s.n * s.mean)) / n;
  const between = compensatedSum(summaries.map((s) => s.n * (s.mean - grand) ** 2));
  const within = compensatedSum(summaries.map((s) => (s.n > 1 ? s.variance * (s.n - 1) : 0)));
  if (!(within > 0)) return notEstimable('no-variation', n);
  const dfBetween = groups.length - 1;
  const dfWithin = n - groups.length;
  const f = between / dfBetween / (within / dfWithin);
  return { estimable: true, f, dfBetween, dfWithin, pValue: fUpper(f, dfBetween, dfWithin) };
}

function deviationTest(groups: Groups, centreOf: (group: Float64Array) => number): Estimate<FTest> {
  const kept = comparable(groups);
  if (!Array.isArray(kept)) return kept;
  return analysisOfVariance(
    kept.map((group) => {
      const centre = centreOf(group);
      return group.map((value) => Math.abs(value - centre));
    })
  );
}

/**
 * Are the spreads equal? Analysis of variance of |x - group median| (Brown & Forsythe 1974, JASA 69:364): the
 * default, since heavy tails do not upset it.
 */
export function brownForsythe(groups: Groups): Estimate<FTest> {
  return deviationTest(groups, median);
}

/** The same on |x - group mean| (Levene 1960). */
export function levene(groups: Groups): Estimate<FTest> {
  return deviationTest(groups, mean);
}

/** Bartlett's test (1937, Proc R Soc A 160:268): only for data known to be normal. Needs two values a group. */
export function bartlett(groups: Groups): Estimate<ChiSquareTest> {
  const kept = groups.map((group) => moments(group)).filter((group) => group.n > 1);
  if (kept.length < 2) return tooFew(kept.length, 2);
  const df = kept.length - 1;
  const dfWithin = kept.reduce((sum, group) => sum + group.n - 1, 0);
  const pooled = compensatedSum(kept.map((group) => (group.n - 1) * group.variance)) / dfWithin;
  const logs = compensatedSum(kept.map((group) => (group.n - 1) * Math.log(group.variance)));
  if (!Number.isFinite(logs)) return notEstimable('no-variation', kept.length);
  const inverse = compensatedSum(kept.map((group) => 1 / (group.n - 1))) - 1 / dfWithin;
  const chiSquare = (dfWithin * Math.log(pooled) - logs) / (1 + inverse / (3 * df));
  return { estimable: true, chiSquare, df, pValue: chiSquareUpper(chiSquare, df) };
}

/** Sum over groups of n (mean score - grand mean)^2 for scores laid end to end. */
function betweenScores(groups: readonly Float64Array[], scores: Float64Array): number {
  const grand = mean(scores);
  let start = 0;
  return compensatedSum(
    groups.map((group) => {
      const own = scores.subarray(start, (start += group.length));
      return group.length * (mean(own) - grand) ** 2;
    })
  );
}

function joined(groups: readonly Float64Array[]): Float64Array {
  return Float64Array.from(groups.flatMap((group) => [...group]));
}

/**
 * Fligner-Killeen test of equal spreads by normal scores of the ranks of |x - group median| (Conover, Johnson &
 * Johnson 1981, Technometrics 23:351). Deviations are rounded to 1e-10, else rounding noise would split ties.
 */
export function flignerKilleen(groups: Groups): Estimate<ChiSquareTest> {
  const kept = comparable(groups);
  if (!Array.isArray(kept)) return kept;
  const deviations = kept.map((group) => {
    const centre = median(group);
    return group.map((value) => Math.round(Math.abs(value - centre) * 1e10) / 1e10);
  });
  const { rank } = averageRanks(joined(deviations));
  const scores = rank.map((r) => normalQuantile((1 + r / (rank.length + 1)) / 2));
  const { variance } = moments(scores);
  if (!(variance > 0)) return notEstimable('no-variation', rank.length);
  const df = kept.length - 1;
  const chiSquare = betweenScores(kept, scores) / variance;
  return { estimable: true, chiSquare, df, pValue: chiSquareUpper(chiSquare, df) };
}

/** Kruskal-Wallis test of equal location by ranks, corrected for ties (1952, JASA 47:583). */
export function kruskalWallis(groups: Groups): Estimate<ChiSquareTest> {
  const kept = comparable(groups);
  if (!Array.isArray(kept)) return kept;
  const { rank, ties } = averageRanks(joined(kept));
  const n = rank.length;
  const divisor = 1 - ties / (n ** 3 - n);
  if (!(divisor > 0)) return notEstimable('no-variation', n);
  const df = kept.length - 1;
  const chiSquare = ((12 / (n * (n + 1))) * betweenScores(kept, rank)) / divisor;
  return { estimable: true, chiSquare, df, pValue: chiSquareUpper(chiSquare, df) };
}
