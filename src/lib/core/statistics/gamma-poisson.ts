import { betaCdf, gammaQuantile, logGamma } from './distributions.ts';
import { notEstimable, tooFew, type Estimate } from './estimable.ts';
import { poissonExact } from './event-rates.ts';
import { nelderMead } from './minimise/nelder-mead.ts';

export interface ShrunkenRates {
  /** Shape and rate of the gamma law of true rates; both Infinity when there is no excess variation. */
  readonly shape: number;
  readonly rate: number;
  readonly logLikelihood: number;
  /** All events over all exposure. */
  readonly pooledRate: number;
  /** False: no differences beyond chance, and every unit has the pooled rate. */
  readonly excess: boolean;
  /** Best guess of each unit's true rate; NaN for a unit without exposure. */
  readonly mean: Float64Array;
  /** 90 % interval of each true rate. */
  readonly lower: Float64Array;
  readonly upper: Float64Array;
  /** 1 = highest rate; close together where the data cannot tell. */
  readonly expectedRank: Float64Array;
}

interface Units {
  readonly events: Float64Array;
  readonly exposure: Float64Array;
}

// Beyond this shape the gamma law is a point for every purpose.
const POINT_SHAPE = 1e5;

/** Log likelihood of negative binomial counts, complete with its constants. */
function logLikelihood(units: Units, shape: number, rate: number): number {
  const { events, exposure } = units;
  return events.reduce((sum, y, i) => {
    const e = exposure[i] ?? NaN;
    const odds = shape * Math.log(rate / (rate + e)) + y * Math.log(e / (rate + e));
    return sum + logGamma(y + shape) - logGamma(shape) - logGamma(y + 1) + odds;
  }, 0);
}

/** The likeliest shape and rate, searched on their logarithms from three starts. */
function fitPrior(units: Units, pooled: number): { shape: number; rate: number } {
  const minus = (point: readonly number[]): number => {
    const [logShape = NaN, logRate = NaN] = point;
    if (logShape > Math.log(POINT_SHAPE) + 3) return Infinity;
    return -logLikelihood(units, Math.exp(logShape), Math.exp(logRate));
  };
  const found = [0.5, 3, 20].map((shape) =>
    nelderMead(minus, [Math.log(shape), Math.log(shape / pooled)], {
      step: 0.5,
      tolerance: 1e-11,
      mostEvaluations: 2000
    })
  );
  const best = found.reduce((least, minimum) => (minimum.value < least.value ? minimum : least));
  const [logShape = NaN, logRate = NaN] = best.point;
  return { shape: Math.exp(logShape), rate: Math.exp(logRate) };
}

/** 1 + the sum over the others of the chance that their rate is higher. */
function expectedRanks(units: Units, shape: number, rate: number): Float64Array {
  const { events, exposure } = units;
  const rank = new Float64Array(events.length).fill(1);
  for (let i = 0; i < events.length; i += 1) {
    for (let k = 0; k < i; k += 1) {
      const [ownRate, otherRate] = [(exposure[i] ?? NaN) + rate, (exposure[k] ?? NaN) + rate];
      const own = (events[i] ?? NaN) + shape;
      const other = (events[k] ?? NaN) + shape;
      const otherHigher = 1 - betaCdf(otherRate / (otherRate + ownRate), other, own);
      rank[i] = (rank[i] ?? NaN) + otherHigher;
      rank[k] = (rank[k] ?? NaN) + 1 - otherHigher;
    }
  }
  return rank;
}

/** A variance of counts beyond chance needs a likelihood that falls again before the law is a point. */
function hasExcess(units: Units, shape: number, pooled: number, fitted: number): boolean {
  if (shape >= POINT_SHAPE) return false;
  const point = units.events.reduce((sum, y, i) => {
    const expected = pooled * (units.exposure[i] ?? NaN);
    return sum + y * Math.log(expected) - expected - logGamma(y + 1);
  }, 0);
  return fitted > point;
}

function posteriors(
  units: Units,
  shape: number,
  rate: number
): Pick<ShrunkenRates, 'mean' | 'lower' | 'upper' | 'expectedRank'> {
  const { events, exposure } = units;
  const at = (of: (shape: number, rate: number) => number): Float64Array =>
    events.map((y, i) => of(y + shape, (exposure[i] ?? NaN) + rate));
  return {
    mean: at((s, r) => s / r),
    lower: at((s, r) => gammaQuantile(0.05, s, r)),
    upper: at((s, r) => gammaQuantile(0.95, s, r)),
    expectedRank: expectedRanks(units, shape, rate)
  };
}

function withoutExcess(
  units: Units,
  pooled: number
): Pick<ShrunkenRates, 'mean' | 'lower' | 'upper' | 'expectedRank'> {
  const count = units.events.length;
  const total = (array: Float64Array): number => array.reduce((sum, x) => sum + x, 0);
  const { lower, upper } = poissonExact(total(units.events), total(units.exposure), 0.9);
  const all = (value: number): Float64Array => new Float64Array(count).fill(value);
  return { mean: all(pooled), lower: all(lower), upper: all(upper), expectedRank: all((count + 1) / 2) };
}

/** Puts values of the kept units back in their places. */
function spread(values: Float64Array, kept: readonly number[], count: number): Float64Array {
  const full = new Float64Array(count).fill(NaN);
  kept.forEach((unit, i) => (full[unit] = values[i] ?? NaN));
  return full;
}

/**
 * Empirical-Bayes rates: events Poisson with true rates from one gamma law fitted by maximum likelihood. The fair
 * basis for ranking: small units are drawn to the pooled rate. Units without exposure are left out.
 */
export function shrinkRates(events: ArrayLike<number>, exposure: ArrayLike<number>): Estimate<ShrunkenRates> {
  const kept = Array.from(events, (_, i) => i).filter(
    (i) => (exposure[i] ?? NaN) > 0 && !Number.isNaN(events[i])
  );
  if (kept.length < 2) return tooFew(kept.length, 2);
  const units: Units = {
    events: Float64Array.from(kept, (i) => events[i] ?? NaN),
    exposure: Float64Array.from(kept, (i) => exposure[i] ?? NaN)
  };
  const total = (array: Float64Array): number => array.reduce((sum, x) => sum + x, 0);
  if (total(units.events) === 0) return notEstimable('no-variation', kept.length);
  const pooledRate = total(units.events) / total(units.exposure);
  const prior = fitPrior(units, pooledRate);
  const fitted = logLikelihood(units, prior.shape, prior.rate);
  const excess = hasExcess(units, prior.shape, pooledRate, fitted);
  const answers = excess ? posteriors(units, prior.shape, prior.rate) : withoutExcess(units, pooledRate);
  const place = (values: Float64Array): Float64Array => spread(values, kept, events.length);
  return {
    estimable: true,
    shape: excess ? prior.shape : Infinity,
    rate: excess ? prior.rate : Infinity,
    logLikelihood: fitted,
    pooledRate,
    excess,
    mean: place(answers.mean),
    lower: place(answers.lower),
    upper: place(answers.upper),
    expectedRank: place(answers.expectedRank)
  };
}
