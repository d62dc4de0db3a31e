import { betaQuantile, normalQuantile } from './distributions.ts';

export interface Interval {
  readonly lower: number;
  readonly upper: number;
}

function requireCounts(x: number, n: number): void {
  if (!(Number.isInteger(x) && Number.isInteger(n) && x >= 0 && x <= n)) {
    throw new RangeError(`count: ${x} of ${n}, need whole numbers with 0 <= count <= total`);
  }
}

/** The share left out on each side; throws unless 0 < confidence < 1. */
export function tailShare(confidence: number): number {
  if (!(confidence > 0 && confidence < 1)) {
    throw new RangeError(`confidence: ${confidence}, need more than 0 and less than 1`);
  }
  return (1 - confidence) / 2;
}

/**
 * Wilson score interval of a proportion x / n (Wilson 1927, JASA 22:209; method 3 of Newcombe 1998, Statistics in
 * Medicine 17:857). Nothing counted (n = 0) gives 0 to 1: nothing is known.
 */
export function wilson(x: number, n: number, confidence = 0.95): Interval {
  requireCounts(x, n);
  const z = normalQuantile(1 - tailShare(confidence));
  if (n === 0) return { lower: 0, upper: 1 };
  const p = x / n;
  const shrink = 1 + (z * z) / n;
  const centre = (p + (z * z) / (2 * n)) / shrink;
  const half = (z / shrink) * Math.sqrt((p * (1 - p)) / n + (z * z) / (4 * n * n));
  // At the ends rounding would leave -1e-17 or 1 + 1e-16.
  return { lower: x === 0 ? 0 : centre - half, upper: x === n ? 1 : centre + half };
}

/**
 * Clopper-Pearson interval (1934, Biometrika 26:404): covers at least as often as it says. Nothing counted gives
 * 0 to 1.
 */
export function clopperPearson(x: number, n: number, confidence = 0.95): Interval {
  requireCounts(x, n);
  const tail = tailShare(confidence);
  return {
    lower: x === 0 ? 0 : betaQuantile(tail, x, n - x + 1),
    upper: x === n ? 1 : betaQuantile(1 - tail, x + 1, n - x)
  };
}

/**
 * Equal-tailed Jeffreys interval with its ends moved to 0 and 1 at x = 0 and x = n (Brown, Cai, DasGupta 2001,
 * Statistical Science 16:101).
 */
export function jeffreys(x: number, n: number, confidence = 0.95): Interval {
  requireCounts(x, n);
  const tail = tailShare(confidence);
  return {
    lower: x === 0 ? 0 : betaQuantile(tail, x + 0.5, n - x + 0.5),
    upper: x === n ? 1 : betaQuantile(1 - tail, x + 0.5, n - x + 0.5)
  };
}

export interface Difference extends Interval {
  /** First proportion less the second; NaN when either total is 0. */
  readonly difference: number;
}

/**
 * Difference of two proportions with the hybrid score interval: method 10 of Newcombe 1998, Statistics in Medicine
 * 17:873. An empty side gives NaN with the limits -1 to 1.
 */
export function newcombeDifference(
  x1: number,
  n1: number,
  x2: number,
  n2: number,
  confidence = 0.95
): Difference {
  const first = wilson(x1, n1, confidence);
  const second = wilson(x2, n2, confidence);
  if (n1 === 0 || n2 === 0) return { difference: NaN, lower: -1, upper: 1 };
  const p1 = x1 / n1;
  const p2 = x2 / n2;
  return {
    difference: p1 - p2,
    lower: p1 - p2 - Math.hypot(p1 - first.lower, second.upper - p2),
    upper: p1 - p2 + Math.hypot(first.upper - p1, p2 - second.lower)
  };
}
