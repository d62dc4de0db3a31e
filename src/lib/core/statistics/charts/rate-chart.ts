import { notEstimable, tooFew, type Estimate } from '../estimable.ts';
import { outsideLimits, withinBaseline, type ChartOptions } from './baseline.ts';
import { MOVING_RANGE_FACTOR, movingRanges } from './moving-range.ts';

export interface RateChart {
  /** Pooled rate of the baseline. */
  readonly centre: number;
  /** Rate of each period; NaN where a period has no exposure. */
  readonly rate: Float64Array;
  readonly lower: Float64Array;
  readonly upper: Float64Array;
  /** Indices of the periods outside their limits, from 0. */
  readonly signals: readonly number[];
  /** Sigma z: how many times the chance spread the rates move from period to period; 1 on a plain chart. */
  readonly dispersion: number;
}

export interface DispersionOptions extends ChartOptions {
  /** Never narrow the limits below pure chance; on unless the published form of the method is wanted. */
  readonly floorAtOne?: boolean;
}

/** What a kind of rate is: its spread by chance for one unit of exposure, and the most it can be. */
interface RateKind {
  readonly unitSd: (centre: number) => number;
  readonly most: number;
}

const PROPORTION: RateKind = { unitSd: (centre) => Math.sqrt(centre * (1 - centre)), most: 1 };
const EVENT_RATE: RateKind = { unitSd: (centre) => Math.sqrt(centre), most: Infinity };

function requireSameLength(events: ArrayLike<number>, exposure: ArrayLike<number>): void {
  if (events.length !== exposure.length) {
    throw new RangeError(`periods: ${events.length} and ${exposure.length}, need the same number`);
  }
}

function ratesOf(events: ArrayLike<number>, exposure: ArrayLike<number>): Float64Array {
  return Float64Array.from(events, (x, i) => {
    const size = exposure[i] ?? NaN;
    return size > 0 ? x / size : NaN;
  });
}

function pooledRate(rate: Float64Array, exposure: ArrayLike<number>): number {
  let events = 0;
  let total = 0;
  rate.forEach((r, i) => {
    if (Number.isNaN(r)) return;
    events += r * (exposure[i] ?? NaN);
    total += exposure[i] ?? NaN;
  });
  return events / total;
}

function chart(
  kind: RateKind,
  events: ArrayLike<number>,
  exposure: ArrayLike<number>,
  dispersionOf: (z: Float64Array) => number,
  options: ChartOptions
): Estimate<RateChart> {
  requireSameLength(events, exposure);
  const rate = ratesOf(events, exposure);
  const baseline = withinBaseline(rate, options);
  const centre = pooledRate(baseline, exposure);
  if (Number.isNaN(centre)) return notEstimable('no-exposure', 0);
  const sd = rate.map((r, i) =>
    Number.isNaN(r) ? NaN : kind.unitSd(centre) / Math.sqrt(exposure[i] ?? NaN)
  );
  const dispersion = dispersionOf(baseline.map((r, i) => (r - centre) / (sd[i] ?? NaN)));
  if (Number.isNaN(dispersion)) return tooFew(0, 1);
  const lower = sd.map((s) => Math.max(0, centre - 3 * dispersion * s));
  const upper = sd.map((s) => Math.min(kind.most, centre + 3 * dispersion * s));
  const signals = outsideLimits(rate, lower, upper);
  return { estimable: true, centre, rate, lower, upper, signals, dispersion };
}

const plain = (): number => 1;

/** Mean moving range of z over 1.128; NaN without two neighbouring periods. */
function laneyDispersion(options: DispersionOptions): (z: Float64Array) => number {
  return (z) => {
    const sigma = movingRanges(z).mean / MOVING_RANGE_FACTOR;
    return options.floorAtOne === false ? sigma : Math.max(1, sigma);
  };
}

/**
 * p chart: proportions with binomial 3-sigma limits (NIST/SEMATECH e-Handbook 6.3.3.2). With some thousands a
 * period it flags ordinary wobble; use `laneyPChart`.
 */
export function pChart(
  events: ArrayLike<number>,
  totals: ArrayLike<number>,
  options: ChartOptions = {}
): Estimate<RateChart> {
  return chart(PROPORTION, events, totals, plain, options);
}

/** p' chart: limits widened by the period-to-period spread (Laney 2002, Quality Engineering 14:531). */
export function laneyPChart(
  events: ArrayLike<number>,
  totals: ArrayLike<number>,
  options: DispersionOptions = {}
): Estimate<RateChart> {
  return chart(PROPORTION, events, totals, laneyDispersion(options), options);
}

/** u chart: events per unit of exposure with Poisson 3-sigma limits. */
export function uChart(
  events: ArrayLike<number>,
  exposure: ArrayLike<number>,
  options: ChartOptions = {}
): Estimate<RateChart> {
  return chart(EVENT_RATE, events, exposure, plain, options);
}

/** u' chart: as p', for events per unit of exposure (Laney 2002). */
export function laneyUChart(
  events: ArrayLike<number>,
  exposure: ArrayLike<number>,
  options: DispersionOptions = {}
): Estimate<RateChart> {
  return chart(EVENT_RATE, events, exposure, laneyDispersion(options), options);
}

/** c chart: counts over equal exposure (NIST/SEMATECH e-Handbook 6.3.3.1). A NaN count is a missing period. */
export function cChart(counts: ArrayLike<number>, options: ChartOptions = {}): Estimate<RateChart> {
  const exposure = Float64Array.from(counts, (count) => (Number.isNaN(count) ? NaN : 1));
  return uChart(counts, exposure, options);
}
