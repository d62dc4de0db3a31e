import { fitCrossed } from './crossed/fit.ts';
import type { SearchControl } from './minimise/nelder-mead.ts';
import { tooFew, type Estimate } from './estimable.ts';
import { compensatedSum } from './sums.ts';

/** Below this many groups the spread between them is a rough number. */
const FEWEST_GROUPS = 8;

export interface WithinBetween {
  /** -2 log restricted likelihood. */
  readonly criterion: number;
  readonly mean: number;
  readonly meanError: number;
  /** Standard deviation of the true group levels; 0 is a valid answer: no differences between groups seen. */
  readonly between: number;
  /** Standard deviation inside a group. */
  readonly within: number;
  readonly groups: number;
  readonly n: number;
  /** True below eight groups: `between` is a rough number. */
  readonly rough: boolean;
  /** By group code: level of the group less the mean, shrunk by what the data cannot tell; NaN without values. */
  readonly effect: Float64Array;
  readonly standardError: Float64Array;
  readonly conditionalSd: Float64Array;
  /** The analysis-of-variance estimates, as a check. NaN where a group has no second value. */
  readonly momentBetween: number;
  readonly momentWithin: number;
}

/** Mean squares between and within groups turned into standard deviations. */
function momentEstimates(
  groups: ArrayLike<number>,
  values: ArrayLike<number>
): { momentBetween: number; momentWithin: number } {
  const members = new Map<number, number[]>();
  for (let k = 0; k < values.length; k += 1) {
    const [group, value] = [groups[k] ?? -1, values[k] ?? NaN];
    if (group < 0 || Number.isNaN(value)) continue;
    const set = members.get(group);
    if (set === undefined) members.set(group, [value]);
    else set.push(value);
  }
  const sets = [...members.values()];
  const n = sets.reduce((sum, set) => sum + set.length, 0);
  const mean = (set: readonly number[]): number => compensatedSum(set) / set.length;
  const grand = mean(sets.flat());
  const between =
    compensatedSum(sets.map((set) => set.length * (mean(set) - grand) ** 2)) / (sets.length - 1);
  const squares = sets.flatMap((set) => set.map((value) => (value - mean(set)) ** 2));
  const within = compensatedSum(squares) / (n - sets.length);
  const size = (n - sets.reduce((sum, set) => sum + set.length ** 2, 0) / n) / (sets.length - 1);
  return {
    momentBetween: Math.sqrt(Math.max(0, (between - within) / size)),
    momentWithin: Math.sqrt(within)
  };
}

/**
 * Spread within and between groups by restricted maximum likelihood: value = mean + level of its group + error.
 *
 * @param groups group code of each value, from 0; negative = none.
 */
export function withinBetween(
  groups: ArrayLike<number>,
  values: ArrayLike<number>,
  control: SearchControl = {}
): Estimate<WithinBetween> {
  const b = new Int32Array(values.length);
  const fit = fitCrossed({ a: groups, b, y: values }, control);
  if (!fit.estimable) return fit;
  if (fit.a.levels < 2) return tooFew(fit.a.levels, 2);
  return {
    estimable: true,
    criterion: fit.criterion,
    mean: fit.mean,
    meanError: fit.meanError,
    between: fit.a.sd,
    within: fit.sigma,
    groups: fit.a.levels,
    n: fit.n,
    rough: fit.a.levels < FEWEST_GROUPS,
    effect: fit.a.effect,
    standardError: fit.a.standardError,
    conditionalSd: fit.a.conditionalSd,
    ...momentEstimates(groups, values)
  };
}
