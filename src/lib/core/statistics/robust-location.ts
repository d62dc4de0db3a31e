import { tooFew, notEstimable, type Estimate } from './estimable.ts';
import { quantileSorted, sortedPresent } from './quantiles.ts';
import { mean } from './moments.ts';
import { normalCdf, normalDensity } from './distributions.ts';

/** Makes the median absolute deviation of a normal sample estimate its standard deviation. */
export const MAD_FACTOR = 1.4826;

/** 1.4826 x median |x - median|, of the values that are not NaN; NaN for none, 0 where more than half are tied. */
export function medianAbsoluteDeviation(values: ArrayLike<number>): number {
  const sorted = sortedPresent(values);
  const centre = quantileSorted(sorted, 0.5);
  return MAD_FACTOR * quantileSorted(sorted.map((v) => Math.abs(v - centre)).sort(), 0.5);
}

export interface RobustScale {
  readonly scale: number;
  /** Which rule gave it: the first that is above 0. */
  readonly rule: 'mad' | 'resolution' | 'mean-deviation';
}

/** Makes the mean absolute deviation of a normal sample estimate its standard deviation: sqrt(pi / 2). */
const MEAN_DEVIATION_FACTOR = Math.sqrt(Math.PI / 2);

/**
 * A scale that is never 0: MAD; where more than half the values are tied, and the MAD with every scale of that
 * breakdown is 0, the uniform spread of one step of the instrument (resolution / sqrt 12); without a resolution the
 * mean absolute deviation from the median, which gross errors can pull.
 */
export function robustScale(values: ArrayLike<number>, resolution = 0): Estimate<RobustScale> {
  const sorted = sortedPresent(values);
  if (sorted.length < 2) return tooFew(sorted.length, 2);
  const mad = medianAbsoluteDeviation(sorted);
  if (mad > 0) return { estimable: true, scale: mad, rule: 'mad' };
  if (resolution > 0) return { estimable: true, scale: resolution / Math.sqrt(12), rule: 'resolution' };
  const centre = quantileSorted(sorted, 0.5);
  const deviation = mean(sorted.map((value) => Math.abs(value - centre)));
  if (!(deviation > 0)) return notEstimable('no-variation', sorted.length);
  return { estimable: true, scale: MEAN_DEVIATION_FACTOR * deviation, rule: 'mean-deviation' };
}

const clip = (x: number, low: number, high: number): number => Math.min(Math.max(x, low), high);

function clippedMean(sorted: Float64Array, centre: number, reach: number): number {
  let sum = 0;
  for (const value of sorted) sum += clip(value - centre, -reach, reach);
  return centre + sum / sorted.length;
}

/**
 * Huber's location with the MAD as scale: the fixed point of the mean of the values clipped at k scales (Huber
 * 1964, Ann Math Statist 35:73). The median where the MAD is 0; NaN for no values.
 */
export function huberLocation(values: ArrayLike<number>, k = 1.5): number {
  const sorted = sortedPresent(values);
  const reach = k * medianAbsoluteDeviation(sorted);
  let centre = quantileSorted(sorted, 0.5);
  if (!(reach > 0)) return centre;
  for (let step = 0; step < 500; step += 1) {
    const next = clippedMean(sorted, centre, reach);
    const moved = Math.abs(next - centre);
    centre = next;
    if (moved <= 1e-12 * reach) break;
  }
  return centre;
}

export interface LocationAndScale {
  readonly location: number;
  readonly scale: number;
}

/** E[min(Z^2, k^2)] of a standard normal Z: 0.7784652 at k = 1.5. */
function clippedSecondMoment(k: number): number {
  const inside = 2 * normalCdf(k) - 1;
  return inside - 2 * k * normalDensity(k) + k * k * (1 - inside);
}

function proposal2Step(
  sorted: Float64Array,
  at: LocationAndScale,
  k: number,
  beta: number
): LocationAndScale {
  const reach = k * at.scale;
  const location = clippedMean(sorted, at.location, reach);
  let squares = 0;
  for (const value of sorted) {
    const deviation = clip(value - at.location, -reach, reach) - (location - at.location);
    squares += deviation * deviation;
  }
  return { location, scale: Math.sqrt(squares / ((sorted.length - 1) * beta)) };
}

/**
 * Huber's proposal 2: location and scale together (Huber 1964; the form of algorithm A of ISO 13528).
 */
export function huberProposal2(values: ArrayLike<number>, k = 1.5): Estimate<LocationAndScale> {
  const sorted = sortedPresent(values);
  if (sorted.length < 2) return tooFew(sorted.length, 2);
  const start = robustScale(sorted);
  if (!start.estimable) return start;
  const beta = clippedSecondMoment(k);
  let at: LocationAndScale = { location: quantileSorted(sorted, 0.5), scale: start.scale };
  for (let step = 0; step < 1000; step += 1) {
    const next = proposal2Step(sorted, at, k, beta);
    const moved = Math.max(Math.abs(next.location - at.location), Math.abs(next.scale - at.scale));
    at = next;
    if (moved <= 1e-12 * at.scale) break;
  }
  return at.scale > 0 ? { estimable: true, ...at } : notEstimable('no-variation', sorted.length);
}
