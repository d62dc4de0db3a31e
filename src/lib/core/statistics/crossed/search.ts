import type { SearchControl } from '../minimise/nelder-mead.ts';
import type { Curvature } from '../minimise/difference-newton.ts';
import { minimiseScalesSteps } from '../minimise/scales.ts';
import type { Steps } from '../steps.ts';
import { notEstimable, tooFew, type Estimate } from '../estimable.ts';
import { Criterion } from './criterion.ts';
import type { Design } from './design.ts';
import type { DesignSums } from './sums.ts';

export interface Found {
  /** Positioned at the minimum. */
  readonly criterion: Criterion;
  readonly value: number;
  readonly evaluations: number;
  readonly curvature?: Curvature | undefined;
}

export interface CriterionSearch extends SearchControl {
  /** Relative standard deviations of the small and the large factor to start from. */
  readonly start?: readonly [small: number, large: number];
  /** False for a step on the way, good to about 1e-4. */
  readonly polish?: boolean;
  /** Curvature of an earlier search over much the same records. */
  readonly known?: Curvature | undefined;
}

const FEWEST_RECORDS = 3;
// Relative to the squares of the values: below it only rounding is left.
const NO_VARIATION = 1e-24;
const NO_RESIDUAL = 1e-12;

/** Between-level variance by one-way moments, and at least a trace of it. */
function momentVariance(weights: Float64Array, sums: Float64Array, total: number, variance: number): number {
  let [between, squares, levels] = [0, 0, 0];
  weights.forEach((weight, i) => {
    if (weight === 0) return;
    between += (sums[i] ?? NaN) ** 2 / weight;
    squares += weight * weight;
    levels += 1;
  });
  if (levels < 2) return 1e-4 * variance;
  const size = (total - squares / total) / (levels - 1);
  return Math.max((between / (levels - 1) - variance) / size, 1e-4 * variance);
}

function momentStart(sums: DesignSums): [number, number] {
  const variance = sums.squares / (sums.n - 1);
  const small = momentVariance(sums.smallWeight, sums.smallSum, sums.weight, variance);
  const large = momentVariance(sums.largeWeight, sums.largeSum, sums.weight, variance);
  const residual = Math.max(variance - small - large, 0.1 * variance);
  return [Math.sqrt(small / residual), Math.sqrt(large / residual)];
}

/** A factor can have a spread of its own with two levels or more, and one level seen twice or more. */
function canVary(weights: Float64Array, n: number): boolean {
  const levels = weights.reduce((count, weight) => (weight > 0 ? count + 1 : count), 0);
  return levels > 1 && levels < n;
}

/** The two factors split the records alike: nothing tells which of them varies. */
function isConfounded(design: Design, sums: DesignSums): boolean {
  const occupied = (weights: Float64Array): number =>
    weights.reduce((count, weight) => (weight > 0 ? count + 1 : count), 0);
  const cells = occupied(sums.cellWeight);
  return (
    design.smallLevels.length > 1 &&
    cells === occupied(sums.smallWeight) &&
    cells === occupied(sums.largeWeight)
  );
}

/** Why a fit cannot be tried, if it cannot. */
export function obstacle(sums: DesignSums): ReturnType<typeof tooFew> | undefined {
  if (sums.n < FEWEST_RECORDS) return tooFew(sums.n, FEWEST_RECORDS);
  const size = sums.squares + sums.weight * sums.centre ** 2;
  return sums.squares > NO_VARIATION * size ? undefined : notEstimable('no-variation', sums.n);
}

/** The minimum of the criterion for these records and weights. */
export function* searchCriterion(
  design: Design,
  sums: DesignSums,
  options: CriterionSearch
): Steps<Estimate<Found>> {
  const blocked = obstacle(sums);
  if (blocked !== undefined) return blocked;
  if (isConfounded(design, sums)) return notEstimable('not-separable', sums.n);
  const criterion = new Criterion(design, sums);
  const free = [canVary(sums.smallWeight, sums.n), canVary(sums.largeWeight, sums.n)];
  const start = (options.start ?? momentStart(sums)).map((scale, i) => (free[i] === true ? scale : 0));
  const minimum = yield* minimiseScalesSteps(
    ([small = NaN, large = NaN]) => criterion.evaluate(small, large),
    start,
    {
      ...options,
      free
    }
  );
  if (!minimum.converged && options.shouldStop?.() === true) return notEstimable('stopped', sums.n);
  const [small = NaN, large = NaN] = minimum.point;
  const value = yield* criterion.evaluate(small, large);
  if (!(criterion.residualSquares > NO_RESIDUAL * sums.squares)) return notEstimable('no-variation', sums.n);
  const { evaluations, curvature } = minimum;
  return { estimable: true, criterion, value, evaluations, curvature };
}

/** The criterion at given scales, for passes between searches. */
export function* holdScales(
  design: Design,
  sums: DesignSums,
  small: number,
  large: number,
  curvature?: Curvature
): Steps<Estimate<Found>> {
  const blocked = obstacle(sums);
  if (blocked !== undefined) return blocked;
  const criterion = new Criterion(design, sums);
  const value = yield* criterion.evaluate(small, large);
  return { estimable: true, criterion, value, evaluations: 1, curvature };
}
