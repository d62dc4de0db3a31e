import { chiSquareUpper } from './distributions.ts';
import { notEstimable, type Estimate } from './estimable.ts';
import { compensatedSum } from './sums.ts';

/** Events of totals on two sides, within one stratum. */
export interface Stratum {
  readonly x1: number;
  readonly n1: number;
  readonly x2: number;
  readonly n2: number;
}

export interface StratifiedComparison {
  /** The rates without regard to strata. */
  readonly crude1: number;
  readonly crude2: number;
  /** The rates both sides would have with the strata in the same, combined, proportions. */
  readonly standardised1: number;
  readonly standardised2: number;
  /** Mantel-Haenszel odds ratio, side 1 over side 2; NaN when no stratum informs it. */
  readonly oddsRatio: number;
  /** Mantel-Haenszel chi-square without continuity correction, 1 degree of freedom. */
  readonly chiSquare: number;
  readonly pValue: number;
  /** True where crude and standardised figures point opposite ways. */
  readonly reversed: boolean;
  /** Strata in which both sides have a total. */
  readonly commonStrata: number;
  /** The share of each side's total that lies in common strata. */
  readonly overlap1: number;
  readonly overlap2: number;
}

const total = (strata: readonly Stratum[], of: (s: Stratum) => number): number =>
  compensatedSum(strata.map(of));

function mantelHaenszel(
  strata: readonly Stratum[]
): Pick<StratifiedComparison, 'oddsRatio' | 'chiSquare' | 'pValue'> {
  const size = (s: Stratum): number => s.n1 + s.n2;
  const events = (s: Stratum): number => s.x1 + s.x2;
  const forward = total(strata, (s) => (s.x1 * (s.n2 - s.x2)) / size(s));
  const backward = total(strata, (s) => (s.x2 * (s.n1 - s.x1)) / size(s));
  const excess = total(strata, (s) => s.x1 - (s.n1 * events(s)) / size(s));
  const variance = total(strata, (s) =>
    size(s) < 2 ? 0 : (s.n1 * s.n2 * events(s) * (size(s) - events(s))) / (size(s) ** 2 * (size(s) - 1))
  );
  const chiSquare = variance > 0 ? excess ** 2 / variance : NaN;
  return { oddsRatio: forward / backward, chiSquare, pValue: chiSquareUpper(chiSquare, 1) };
}

/**
 * Two sides compared within strata: direct standardisation with the combined totals as weights, and the
 * Mantel-Haenszel odds ratio and test (1959, J Natl Cancer Inst 22:719). Strata in which one side has nothing tell
 * nothing and are left out of both, not out of the crude rates.
 */
export function compareStratified(strata: readonly Stratum[]): Estimate<StratifiedComparison> {
  const common = strata.filter((s) => s.n1 > 0 && s.n2 > 0);
  if (common.length === 0) return notEstimable('not-separable', 0);
  const weights = total(common, (s) => s.n1 + s.n2);
  const n1 = total(strata, (s) => s.n1);
  const n2 = total(strata, (s) => s.n2);
  const crude1 = total(strata, (s) => s.x1) / n1;
  const crude2 = total(strata, (s) => s.x2) / n2;
  const standardised1 = total(common, (s) => ((s.n1 + s.n2) * s.x1) / s.n1) / weights;
  const standardised2 = total(common, (s) => ((s.n1 + s.n2) * s.x2) / s.n2) / weights;
  return {
    estimable: true,
    crude1,
    crude2,
    standardised1,
    standardised2,
    ...mantelHaenszel(common),
    reversed: (crude1 - crude2) * (standardised1 - standardised2) < 0,
    commonStrata: common.length,
    overlap1: total(common, (s) => s.n1) / n1,
    overlap2: total(common, (s) => s.n2) / n2
  };
}

/** Count, mean and variance (of single values) on two sides, within one stratum. */
export interface MeanStratum {
  readonly n1: number;
  readonly mean1: number;
  readonly variance1: number;
  readonly n2: number;
  readonly mean2: number;
  readonly variance2: number;
}

export interface StandardisedDifference {
  /** Mean of side 1 less mean of side 2, over common strata with their combined counts as weights. */
  readonly difference: number;
  readonly standardError: number;
  /** The same difference without regard to strata. */
  readonly crude: number;
  readonly reversed: boolean;
  readonly commonStrata: number;
}

/**
 * Difference of two means within strata, directly standardised. A stratum takes part with at least two values on
 * each side, since fewer have no variance.
 */
export function standardisedDifference(strata: readonly MeanStratum[]): Estimate<StandardisedDifference> {
  const common = strata.filter((s) => s.n1 > 1 && s.n2 > 1);
  if (common.length === 0) return notEstimable('not-separable', 0);
  const sum = (from: readonly MeanStratum[], of: (s: MeanStratum) => number): number =>
    compensatedSum(from.map(of));
  const weights = sum(common, (s) => s.n1 + s.n2);
  const difference = sum(common, (s) => (s.n1 + s.n2) * (s.mean1 - s.mean2)) / weights;
  const variance = sum(common, (s) => (s.n1 + s.n2) ** 2 * (s.variance1 / s.n1 + s.variance2 / s.n2));
  const side1 = strata.filter((s) => s.n1 > 0);
  const side2 = strata.filter((s) => s.n2 > 0);
  const crude =
    sum(side1, (s) => s.n1 * s.mean1) / sum(side1, (s) => s.n1) -
    sum(side2, (s) => s.n2 * s.mean2) / sum(side2, (s) => s.n2);
  return {
    estimable: true,
    difference,
    standardError: Math.sqrt(variance) / weights,
    crude,
    reversed: crude * difference < 0,
    commonStrata: common.length
  };
}
