import { quantileSorted, sortedPresent } from './quantiles.ts';
import { compensatedSum } from './sums.ts';

export interface Overdispersion {
  /** Mean square of the winsorised z scores: 1 when chance explains the spread. */
  readonly phi: number;
  /** Variance between units beyond chance, in squared units of the rates; 0 when chance explains it. */
  readonly betweenVariance: number;
  /** z with the chance spread widened by betweenVariance: the preferred one. */
  readonly additive: Float64Array;
  /** z / sqrt(phi) where phi is above 1. */
  readonly multiplicative: Float64Array;
}

/**
 * How much more units differ than chance explains, from their z scores and standard errors, after pulling in the
 * outermost share of z on each side so that the units to be found do not hide themselves (Spiegelhalter 2005,
 * Statistics in Medicine 24:1185; tau squared as DerSimonian & Laird). NaN is no unit.
 */
export function overdispersion(
  z: Float64Array,
  standardErrors: Float64Array,
  winsorised = 0.1
): Overdispersion {
  const sorted = sortedPresent(z);
  const count = sorted.length;
  const low = quantileSorted(sorted, winsorised);
  const high = quantileSorted(sorted, 1 - winsorised);
  const phi = compensatedSum(sorted.map((value) => Math.min(Math.max(value, low), high) ** 2)) / count;
  const weights = standardErrors.map((s, i) => (Number.isNaN(z[i]) ? NaN : 1 / (s * s)));
  const total = compensatedSum(weights);
  const scale = total - compensatedSum(weights.map((w) => w * w)) / total;
  const betweenVariance = scale > 0 ? Math.max(0, (count * phi - (count - 1)) / scale) : 0;
  return {
    phi,
    betweenVariance,
    additive: z.map((value, i) => {
      const s = standardErrors[i] ?? NaN;
      return (value * s) / Math.sqrt(s * s + betweenVariance);
    }),
    multiplicative: z.map((value) => value / Math.sqrt(Math.max(1, phi)))
  };
}
