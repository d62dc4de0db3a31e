import { binomialCdf, binomialUpper, gammaQuantile } from './distributions.ts';
import { clopperPearson, tailShare, type Interval } from './proportions.ts';

function requireRate(count: number, exposure: number): void {
  if (!(Number.isInteger(count) && count >= 0)) {
    throw new RangeError(`count: ${count}, need a whole number from 0`);
  }
  if (!(exposure > 0)) throw new RangeError(`exposure: ${exposure}, need more than 0`);
}

/**
 * Exact interval of a Poisson rate, count per unit of exposure (Garwood 1936, Biometrika 28:437).
 */
export function poissonExact(count: number, exposure: number, confidence = 0.95): Interval {
  requireRate(count, exposure);
  const tail = tailShare(confidence);
  return {
    lower: count === 0 ? 0 : gammaQuantile(tail, count) / exposure,
    upper: gammaQuantile(1 - tail, count + 1) / exposure
  };
}

export interface RateRatio extends Interval {
  /** First rate over the second; NaN when neither has an event, Infinity when only the second has none. */
  readonly ratio: number;
  /** Twice the smaller exact tail, at most 1: always agrees with the interval. */
  readonly pValue: number;
}

/**
 * Ratio of two Poisson rates, conditional on the total of events: the Clopper-Pearson limits of y1 / (y1 + y2),
 * mapped to the ratio. No event at all gives 0 to Infinity and p = 1.
 */
export function rateRatio(
  y1: number,
  exposure1: number,
  y2: number,
  exposure2: number,
  confidence = 0.95
): RateRatio {
  requireRate(y1, exposure1);
  requireRate(y2, exposure2);
  const total = y1 + y2;
  const share = clopperPearson(y1, total, confidence);
  const toRatio = (p: number): number => (p === 1 ? Infinity : ((p / (1 - p)) * exposure2) / exposure1);
  const expected = exposure1 / (exposure1 + exposure2);
  const smaller = Math.min(binomialCdf(y1, total, expected), binomialUpper(y1, total, expected));
  return {
    ratio: y1 / exposure1 / (y2 / exposure2),
    lower: toRatio(share.lower),
    upper: toRatio(share.upper),
    pValue: Math.min(1, 2 * smaller)
  };
}
