import {
  binomialCdf,
  binomialUpper,
  gammaCdf,
  normalQuantile,
  normalTwoSided,
  poissonCdf,
  poissonUpper
} from './distributions.ts';
import { notEstimable, type Estimate } from './estimable.ts';
import { shrinkRates } from './gamma-poisson.ts';
import { overdispersion, type Overdispersion } from './overdispersion.ts';
import type { Interval } from './proportions.ts';

export interface Funnel extends Overdispersion {
  /** The common rate (or ratio) all units are held against. */
  readonly target: number;
  /** Each unit's own rate (or ratio); NaN without size. */
  readonly value: Float64Array;
  readonly z: Float64Array;
  /** True when `betweenVariance` widens limits and p values: at least ten units, and more spread than chance. */
  readonly adjusted: boolean;
  /** Two-sided p of each unit against the target, for `benjaminiHochberg`; NaN without size. */
  readonly pValue: Float64Array;
}

export interface FunnelOptions {
  /** Share of z pulled in at each end before the spread is judged. */
  readonly winsorised?: number;
}

// Fewer units say too little about the spread between units.
const FEWEST_FOR_SPREAD = 10;
// Below this many expected events the normal z is not to be trusted.
const FEWEST_EXPECTED = 5;

/** Interpolated exact limit: the count at which the distribution function reaches q, less the part it overshoots. */
function interpolatedCount(q: number, cdf: (count: number) => number, start: number): number {
  let count = Math.max(0, Math.floor(start));
  while (count > 0 && cdf(count - 1) >= q) count -= 1;
  while (cdf(count) < q) count += 1;
  const reached = cdf(count);
  const before = count === 0 ? 0 : cdf(count - 1);
  return Math.max(0, count - (reached - q) / (reached - before));
}

/**
 * Limits of a proportion around the target for a unit of that size, interpolated exact binomial (Spiegelhalter 2005),
 * coverage for instance 0.95 or 0.998; widened by a variance between units when it is above 0.
 */
export function binomialFunnelLimits(
  target: number,
  size: number,
  coverage: number,
  betweenVariance = 0
): Interval {
  const tail = (1 - coverage) / 2;
  const sd = Math.sqrt((target * (1 - target)) / size);
  if (betweenVariance > 0) return widened(target, sd, tail, betweenVariance, 1);
  const limit = (q: number): number =>
    interpolatedCount(q, (r) => binomialCdf(r, size, target), size * (target + normalQuantile(q) * sd)) /
    size;
  return { lower: limit(tail), upper: limit(1 - tail) };
}

/** The same for a ratio of observed to expected events around 1, exact Poisson. */
export function poissonFunnelLimits(expected: number, coverage: number, betweenVariance = 0): Interval {
  const tail = (1 - coverage) / 2;
  const sd = 1 / Math.sqrt(expected);
  if (betweenVariance > 0) return widened(1, sd, tail, betweenVariance, Infinity);
  const limit = (q: number): number =>
    interpolatedCount(q, (r) => poissonCdf(r, expected), expected * (1 + normalQuantile(q) * sd)) / expected;
  return { lower: limit(tail), upper: limit(1 - tail) };
}

function widened(target: number, sd: number, tail: number, betweenVariance: number, most: number): Interval {
  const reach = -normalQuantile(tail) * Math.sqrt(sd * sd + betweenVariance);
  return { lower: Math.max(0, target - reach), upper: Math.min(most, target + reach) };
}

const doubled = (lower: number, upper: number): number => Math.min(1, 2 * Math.min(lower, upper));

interface Units {
  readonly events: Float64Array;
  /** Exposure on whose scale the rate is `value`. */
  readonly exposure: Float64Array;
  readonly value: Float64Array;
  readonly standardErrors: Float64Array;
  /** Exact two-sided p of unit i against the target by chance alone. */
  readonly exactP: (unit: number) => number;
}

/** p of units with few expected events: exact by chance alone, or each unit's posterior where units differ. */
function smallUnitP(units: Units, target: number, adjusted: boolean): (unit: number) => number {
  if (!adjusted) return units.exactP;
  const prior = shrinkRates(units.events, units.exposure);
  if (!prior.estimable || !prior.excess) return units.exactP;
  return (i) => {
    const below = gammaCdf(
      target,
      (units.events[i] ?? NaN) + prior.shape,
      (units.exposure[i] ?? NaN) + prior.rate
    );
    return doubled(below, 1 - below);
  };
}

function funnel(units: Units, target: number, options: FunnelOptions): Funnel & { readonly estimable: true } {
  const { value, standardErrors } = units;
  const z = value.map((v, i) => (v - target) / (standardErrors[i] ?? NaN));
  const spread = overdispersion(z, standardErrors, options.winsorised);
  const count = z.filter((v) => !Number.isNaN(v)).length;
  const adjusted = count >= FEWEST_FOR_SPREAD && spread.betweenVariance > 0;
  const small = smallUnitP(units, target, adjusted);
  const pValue = z.map((plain, i) => {
    if (Number.isNaN(plain)) return NaN;
    if (target * (units.exposure[i] ?? NaN) < FEWEST_EXPECTED) return small(i);
    return normalTwoSided(adjusted ? (spread.additive[i] ?? NaN) : plain);
  });
  return { estimable: true, target, value, z, ...spread, adjusted, pValue };
}

const total = (values: Float64Array): number =>
  values.reduce((sum, v) => (Number.isNaN(v) ? sum : sum + v), 0);

function ratios(events: Float64Array, sizes: Float64Array): Float64Array {
  return events.map((d, i) => ((sizes[i] ?? NaN) > 0 ? d / (sizes[i] ?? NaN) : NaN));
}

/**
 * Funnel of proportions: every unit against the common rate, with the spread between units beyond chance
 * (Spiegelhalter 2005, Statistics in Medicine 24:1185).
 */
export function binomialFunnel(
  events: ArrayLike<number>,
  totals: ArrayLike<number>,
  options: FunnelOptions = {}
): Estimate<Funnel> {
  const exposure = Float64Array.from(totals);
  const counts = Float64Array.from(events);
  const value = ratios(counts, exposure);
  const size = total(exposure.map((n, i) => (Number.isNaN(value[i]) ? NaN : n)));
  if (!(size > 0)) return notEstimable('no-exposure', 0);
  const target = total(value.map((v, i) => v * (exposure[i] ?? NaN))) / size;
  if (target === 0 || target === 1) return notEstimable('no-variation', value.length);
  const exactP = (i: number): number => {
    const [d, n] = [counts[i] ?? NaN, exposure[i] ?? NaN];
    return doubled(binomialCdf(d, n, target), binomialUpper(d, n, target));
  };
  const standardErrors = exposure.map((n) => Math.sqrt((target * (1 - target)) / n));
  return funnel({ events: counts, exposure, value, standardErrors, exactP }, target, options);
}

/** Funnel of observed over expected events around 1, with exact Poisson limits. */
export function poissonFunnel(
  observed: ArrayLike<number>,
  expected: ArrayLike<number>,
  options: FunnelOptions = {}
): Estimate<Funnel> {
  const exposure = Float64Array.from(expected);
  const events = Float64Array.from(observed);
  const value = ratios(events, exposure);
  if (value.every((v) => Number.isNaN(v))) return notEstimable('no-exposure', 0);
  const exactP = (i: number): number => {
    const [d, e] = [events[i] ?? NaN, exposure[i] ?? NaN];
    return doubled(poissonCdf(d, e), poissonUpper(d, e));
  };
  const standardErrors = exposure.map((e) => 1 / Math.sqrt(e));
  return funnel({ events, exposure, value, standardErrors, exactP }, 1, options);
}
