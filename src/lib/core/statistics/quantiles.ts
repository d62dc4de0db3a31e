/** The values that are not NaN, ascending, in an array of their own. */
export function sortedPresent(values: ArrayLike<number>): Float64Array {
  const present = new Float64Array(values.length);
  let n = 0;
  for (let i = 0; i < values.length; i += 1) {
    const value = values[i] ?? NaN;
    if (!Number.isNaN(value)) present[n++] = value;
  }
  return present.subarray(0, n).sort();
}

/**
 * Quantile of ascending values without NaN, by linear interpolation at (n - 1) p: type 7 of Hyndman & Fan 1996
 * (Am Stat 50:361), the rule used everywhere here. NaN for no values.
 */
export function quantileSorted(sorted: ArrayLike<number>, probability: number): number {
  if (!(probability >= 0 && probability <= 1)) {
    throw new RangeError(`probability: ${probability}, need 0 to 1`);
  }
  const n = sorted.length;
  if (n === 0) return NaN;
  const position = (n - 1) * probability;
  const below = Math.floor(position);
  const low = sorted[below] ?? NaN;
  const high = sorted[Math.min(below + 1, n - 1)] ?? NaN;
  return position === below ? low : low + (high - low) * (position - below);
}

/** Several quantiles (type 7) of ascending values without NaN. */
export function quantilesSorted(sorted: ArrayLike<number>, probabilities: readonly number[]): number[] {
  return probabilities.map((probability) => quantileSorted(sorted, probability));
}

/** Quantile (type 7) of values in any order; NaN values are left out. */
export function quantile(values: ArrayLike<number>, probability: number): number {
  return quantileSorted(sortedPresent(values), probability);
}

/** Median of the values that are not NaN; NaN for none. */
export function median(values: ArrayLike<number>): number {
  return quantile(values, 0.5);
}

/**
 * Quantile by the (n + 1) p rule (type 6), which the NIST/SEMATECH e-Handbook 7.2.6.2 prints; only for comparing
 * with sources that use it. NaN for no values.
 */
export function quantileSortedType6(sorted: ArrayLike<number>, probability: number): number {
  const n = sorted.length;
  if (n === 0) return NaN;
  const position = Math.min(Math.max((n + 1) * probability, 1), n);
  const below = Math.floor(position);
  const low = sorted[below - 1] ?? NaN;
  const high = sorted[Math.min(below, n - 1)] ?? NaN;
  return low + (high - low) * (position - below);
}
