import jstat from 'jstat';
import { logGamma, regularisedBeta, regularisedGamma } from './special.ts';

export { logGamma } from './special.ts';

const ROOT_TWO_PI = Math.sqrt(2 * Math.PI);

/** Standard normal density. */
export function normalDensity(z: number): number {
  return Math.exp(-0.5 * z * z) / ROOT_TWO_PI;
}

/**
 * Standard normal distribution function, accurate in the lower tail too: the incomplete gamma function of
 * z squared / 2. The library's own loses the tail (0 at z = -12).
 */
export function normalCdf(z: number): number {
  const { lower, upper } = regularisedGamma(0.5, 0.5 * z * z);
  return z < 0 ? 0.5 * upper : 0.5 + 0.5 * lower;
}

/** Two-sided tail of the standard normal: P(|Z| > |z|). */
export function normalTwoSided(z: number): number {
  return regularisedGamma(0.5, 0.5 * z * z).upper;
}

/** Standard normal quantile; -Infinity at 0 and Infinity at 1, NaN outside. */
export function normalQuantile(probability: number): number {
  if (!(probability >= 0 && probability <= 1)) return NaN;
  if (probability === 0) return -Infinity;
  if (probability === 1) return Infinity;
  if (probability === 0.5) return 0;
  if (probability > 0.5) return -normalQuantile(1 - probability);
  const start = jstat.normal.inv(probability, 0, 1);
  // One Newton step; the library's start is good to 6e-12 except far out.
  return start - (normalCdf(start) - probability) / normalDensity(start);
}

/** Newton steps on a distribution function from a good start, kept inside the open interval (low, high). */
function polishQuantile(
  start: number,
  probability: number,
  cdf: (x: number) => number,
  density: (x: number) => number,
  low: number,
  high: number
): number {
  let x = start;
  for (let step = 0; step < 20; step += 1) {
    const slope = density(x);
    if (!(slope > 0) || slope === Infinity) return x;
    const wanted = x - (cdf(x) - probability) / slope;
    const next = wanted <= low ? (x + low) / 2 : wanted >= high ? (x + high) / 2 : wanted;
    const moved = Math.abs(next - x);
    x = next;
    if (moved <= 1e-13 * Math.abs(x)) break;
  }
  return x;
}

/** Distribution function of Beta(a, b). */
export function betaCdf(x: number, a: number, b: number): number {
  return regularisedBeta(x, a, b);
}

/** Quantile of Beta(a, b), a and b > 0. */
export function betaQuantile(probability: number, a: number, b: number): number {
  if (probability <= 0) return 0;
  if (probability >= 1) return 1;
  const logFront = logGamma(a + b) - logGamma(a) - logGamma(b);
  const density = (x: number): number =>
    Math.exp(logFront + (a - 1) * Math.log(x) + (b - 1) * Math.log1p(-x));
  const cdf = (x: number): number => regularisedBeta(x, a, b);
  return polishQuantile(jstat.beta.inv(probability, a, b), probability, cdf, density, 0, 1);
}

/** Distribution function of a gamma variable with a shape and a rate (mean = shape / rate). */
export function gammaCdf(x: number, shape: number, rate = 1): number {
  return regularisedGamma(shape, x * rate).lower;
}

/** Quantile of a gamma variable with a shape and a rate. */
export function gammaQuantile(probability: number, shape: number, rate = 1): number {
  if (probability <= 0) return 0;
  if (probability >= 1) return Infinity;
  const logFront = -logGamma(shape);
  const density = (x: number): number => Math.exp(logFront + (shape - 1) * Math.log(x) - x);
  const cdf = (x: number): number => regularisedGamma(shape, x).lower;
  const start = jstat.gamma.inv(probability, shape, 1);
  return polishQuantile(start, probability, cdf, density, 0, Infinity) / rate;
}

/** Upper tail of chi-square with df degrees of freedom. */
export function chiSquareUpper(x: number, df: number): number {
  return regularisedGamma(df / 2, x / 2).upper;
}

/** Upper tail of the F distribution. */
export function fUpper(f: number, dfNumerator: number, dfDenominator: number): number {
  if (f <= 0) return 1;
  if (f === Infinity) return 0;
  const x = dfDenominator / (dfDenominator + dfNumerator * f);
  return regularisedBeta(x, dfDenominator / 2, dfNumerator / 2);
}

/** P(X <= k) for a binomial count, by the incomplete beta function. */
export function binomialCdf(k: number, n: number, p: number): number {
  const whole = Math.floor(k);
  if (whole < 0) return 0;
  if (whole >= n) return 1;
  return regularisedBeta(1 - p, n - whole, whole + 1);
}

/** P(X >= k) for a binomial count. */
export function binomialUpper(k: number, n: number, p: number): number {
  const whole = Math.ceil(k);
  if (whole <= 0) return 1;
  if (whole > n) return 0;
  return regularisedBeta(p, whole, n - whole + 1);
}

/** P(X <= k) for a Poisson count, by the incomplete gamma function. */
export function poissonCdf(k: number, mean: number): number {
  const whole = Math.floor(k);
  return whole < 0 ? 0 : regularisedGamma(whole + 1, mean).upper;
}

/** P(X >= k) for a Poisson count. */
export function poissonUpper(k: number, mean: number): number {
  const whole = Math.ceil(k);
  return whole <= 0 ? 1 : regularisedGamma(whole, mean).lower;
}
