import { sortedPresent } from './quantiles.ts';

const QN_FACTOR = 2.21914;
const SN_FACTOR = 1.1926;
// Finite-sample factors for n = 2, 3, ... as in the reference implementation of Croux and Rousseeuw.
const QN_SMALL = [
  0.399356, 0.99365, 0.51321, 0.84401, 0.6122, 0.85877, 0.66993, 0.87344, 0.72014, 0.88906, 0.75743
];
const SN_SMALL = [0.743, 1.851, 0.954, 1.351, 0.993, 1.198, 1.005, 1.131];

function qnCorrection(n: number): number {
  const small = QN_SMALL[n - 2];
  if (small !== undefined) return small;
  const tail =
    n % 2 === 1 ? 1.60188 + (-2.1284 - 5.172 / n) / n : 3.67561 + (1.9654 + (6.987 - 77 / n) / n) / n;
  return 1 / (1 + tail / n);
}

function snCorrection(n: number): number {
  return SN_SMALL[n - 2] ?? (n % 2 === 1 ? n / (n - 0.9) : 1);
}

/** How many pairs of the ascending values are at most `distance` apart. */
function pairsWithin(sorted: Float64Array, distance: number): number {
  if (distance < 0) return 0;
  let count = 0;
  let low = 0;
  for (let high = 0; high < sorted.length; high += 1) {
    while ((sorted[high] ?? NaN) - (sorted[low] ?? NaN) > distance) low += 1;
    count += high - low;
  }
  return count;
}

/** The pairwise distances of ascending values within (above, upTo], ascending. */
function distancesBetween(sorted: Float64Array, above: number, upTo: number): Float64Array {
  const found: number[] = [];
  for (let high = 1; high < sorted.length; high += 1) {
    for (let low = high - 1; low >= 0; low -= 1) {
      const distance = (sorted[high] ?? NaN) - (sorted[low] ?? NaN);
      if (distance > upTo) break;
      if (distance > above) found.push(distance);
    }
  }
  return Float64Array.from(found).sort();
}

/** The k-th smallest pairwise distance, by halving the range until few pairs are left to sort. */
function kthDistance(sorted: Float64Array, k: number): number {
  let above = -1;
  let upTo = (sorted[sorted.length - 1] ?? NaN) - (sorted[0] ?? NaN);
  for (let step = 0; step < 60; step += 1) {
    if (pairsWithin(sorted, upTo) - pairsWithin(sorted, above) < 4 * sorted.length + 64) break;
    const middle = (Math.max(above, 0) + upTo) / 2;
    if (pairsWithin(sorted, middle) >= k) upTo = middle;
    else above = middle;
  }
  const rank = k - pairsWithin(sorted, above);
  return distancesBetween(sorted, above, upTo)[rank - 1] ?? NaN;
}

/**
 * Qn: a scale from the first quartile of the pairwise distances, 82 % efficient, breaking down only at half of the
 * values (Rousseeuw & Croux 1993, JASA 88:1273). NaN for fewer than two values; 0, like the MAD, where more than half
 * are tied.
 */
export function qn(values: ArrayLike<number>): number {
  const sorted = sortedPresent(values);
  const n = sorted.length;
  if (n < 2) return NaN;
  const half = Math.floor(n / 2) + 1;
  return QN_FACTOR * qnCorrection(n) * kthDistance(sorted, (half * (half - 1)) / 2);
}

/** The rank-th smallest distance from sorted[at] to all values, itself included, by walking outwards. */
function rankedDistance(sorted: Float64Array, at: number, rank: number): number {
  const value = sorted[at] ?? NaN;
  let left = at - 1;
  let right = at + 1;
  let distance = 0;
  for (let taken = 1; taken < rank; taken += 1) {
    const toLeft = left < 0 ? Infinity : value - (sorted[left] ?? NaN);
    const toRight = right >= sorted.length ? Infinity : (sorted[right] ?? NaN) - value;
    distance = Math.min(toLeft, toRight);
    if (toLeft <= toRight) left -= 1;
    else right += 1;
  }
  return distance;
}

/**
 * Sn: the low median over i of the high median over j of |xi - xj| (Rousseeuw & Croux 1993). Quadratic in the
 * number of values. NaN for fewer than two.
 */
export function sn(values: ArrayLike<number>): number {
  const sorted = sortedPresent(values);
  const n = sorted.length;
  if (n < 2) return NaN;
  const high = Math.floor(n / 2) + 1;
  const inner = sorted.map((_, i) => rankedDistance(sorted, i, high)).sort();
  return SN_FACTOR * snCorrection(n) * (inner[Math.floor((n + 1) / 2) - 1] ?? NaN);
}
