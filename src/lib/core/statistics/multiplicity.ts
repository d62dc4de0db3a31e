export interface FalseDiscovery {
  /** Adjusted p of each value, NaN where p is NaN; reject at q exactly those at most q. */
  readonly adjusted: Float64Array;
  /** How many are rejected at q. */
  readonly rejected: number;
  /** The largest p rejected; NaN when none is. */
  readonly cutoff: number;
  /** How many p values took part. */
  readonly family: number;
}

/**
 * Benjamini-Hochberg step-up control of the false discovery rate (1995, JRSS B 57:289). NaN is no test and leaves
 * the family.
 */
export function benjaminiHochberg(pValues: ArrayLike<number>, q: number): FalseDiscovery {
  const order = Array.from(pValues, (_, i) => i).filter((i) => !Number.isNaN(pValues[i]));
  order.sort((i, j) => (pValues[i] ?? NaN) - (pValues[j] ?? NaN));
  const family = order.length;
  const adjusted = new Float64Array(pValues.length).fill(NaN);
  let running = 1;
  let rejected = 0;
  let cutoff = NaN;
  for (let rank = family; rank >= 1; rank -= 1) {
    const index = order[rank - 1] ?? NaN;
    const p = pValues[index] ?? NaN;
    running = Math.min(running, p * (family / rank));
    adjusted[index] = running;
    if (running <= q && rejected === 0) {
      rejected = rank;
      cutoff = p;
    }
  }
  return { adjusted, rejected, cutoff, family };
}
