import jstat from 'jstat';

const TINY = 1e-300;
const EPSILON = 1e-15;
/** Rounding alone keeps a factor of a continued fraction this far from one: asking for less may never end. */
const FRACTION_EPSILON = 32 * Number.EPSILON;

/** Natural logarithm of the gamma function, for x > 0. */
export function logGamma(x: number): number {
  return jstat.gammaln(x);
}

/** Most terms of a continued fraction; a few thousand are enough for counts of 1e7. */
const MOST_TERMS = 100_000;

/** A factor kept away from zero, so that Lentz's recurrence never divides by it. */
const awayFromZero = (x: number): number => (Math.abs(x) < TINY ? TINY : x);

/**
 * A continued fraction b0 + a1/(b1 + a2/(b2 + ...)) by the modified Lentz method
 * (Thompson & Barnett 1986, J Comput Phys 64:490).
 */
export function continuedFraction(b0: number, term: (k: number) => readonly [a: number, b: number]): number {
  let value = awayFromZero(b0);
  let c = value;
  let d = 0;
  for (let k = 1; k < MOST_TERMS; k += 1) {
    const [a, b] = term(k);
    d = 1 / awayFromZero(b + a * d);
    c = awayFromZero(b + a / c);
    const change = c * d;
    value *= change;
    if (Math.abs(change - 1) < FRACTION_EPSILON) break;
  }
  return value;
}

/** The continued fraction of the incomplete beta function (DLMF 8.17.22); converges fast left of the mean. */
function betaFraction(x: number, a: number, b: number): number {
  const denominator = continuedFraction(1, (k) => {
    const m = k >> 1;
    if (k === 1) return [(-(a + b) * x) / (a + 1), 1];
    if (k % 2 === 0) return [(m * (b - m) * x) / ((a + k - 1) * (a + k)), 1];
    return [(-(a + m) * (a + b + m) * x) / ((a + k - 1) * (a + k)), 1];
  });
  return 1 / denominator;
}

/**
 * Regularised incomplete beta function I_x(a, b), both tails to about 1e-9 relative for a + b up to 1e7.
 * The library's own stops after 100 terms, which is too few from a few thousand counts on.
 */
export function regularisedBeta(x: number, a: number, b: number): number {
  if (Number.isNaN(x + a + b)) return NaN;
  if (x <= 0) return 0;
  if (x >= 1) return 1;
  const logFront = logGamma(a + b) - logGamma(a) - logGamma(b) + a * Math.log(x) + b * Math.log1p(-x);
  const front = Math.exp(logFront);
  if (x < (a + 1) / (a + b + 2)) return (front * betaFraction(x, a, b)) / a;
  return 1 - (front * betaFraction(1 - x, b, a)) / b;
}

/** Lower regularised gamma by its power series (DLMF 8.7.1); used where x < a + 1. */
function gammaSeries(a: number, x: number): number {
  let term = 1 / a;
  let sum = term;
  for (let k = 1; k < 1_000_000 && term > sum * EPSILON; k += 1) {
    term *= x / (a + k);
    sum += term;
  }
  return sum;
}

/** Lower and upper regularised incomplete gamma functions P(a, x) and Q(a, x), each accurate in its own tail. */
export function regularisedGamma(a: number, x: number): { lower: number; upper: number } {
  if (Number.isNaN(x + a)) return { lower: NaN, upper: NaN };
  if (x <= 0) return { lower: 0, upper: 1 };
  if (x === Infinity) return { lower: 1, upper: 0 };
  const front = Math.exp(a * Math.log(x) - x - logGamma(a));
  if (x < a + 1) {
    const lower = front * gammaSeries(a, x);
    return { lower, upper: 1 - lower };
  }
  // DLMF 8.9.2 in its contracted form.
  const upper = front / continuedFraction(x + 1 - a, (k) => [-k * (k - a), x + 2 * k + 1 - a]);
  return { lower: 1 - upper, upper };
}
