import { normalDensity } from './distributions.ts';
import { moments } from './moments.ts';
import { quantileSorted, sortedPresent } from './quantiles.ts';

/**
 * Bandwidth 0.9 min(sd, IQR / 1.34) n^(-1/5) (Silverman 1986, eq. 3.31), never below the resolution of the
 * recorded values. Where the quartiles coincide the standard deviation alone is used. NaN for fewer than two
 * values; the resolution where nothing varies.
 */
export function silvermanBandwidth(values: ArrayLike<number>, resolution = 0): number {
  const sorted = sortedPresent(values);
  if (sorted.length < 2) return NaN;
  const spread = moments(sorted).standardDeviation;
  const iqr = quantileSorted(sorted, 0.75) - quantileSorted(sorted, 0.25);
  const scale = iqr > 0 ? Math.min(spread, iqr / 1.34) : spread;
  return Math.max(resolution, 0.9 * scale * sorted.length ** -0.2);
}

/** Gaussian kernel density of the values at each point, per unit of the values; NaN where nothing can be said. */
export function kernelDensity(
  values: ArrayLike<number>,
  points: ArrayLike<number>,
  bandwidth: number
): Float64Array {
  const sorted = sortedPresent(values);
  const density = new Float64Array(points.length).fill(NaN);
  if (sorted.length === 0 || !(bandwidth > 0)) return density;
  for (let j = 0; j < points.length; j += 1) {
    let sum = 0;
    for (const value of sorted) sum += normalDensity(((points[j] ?? NaN) - value) / bandwidth);
    density[j] = sum / (sorted.length * bandwidth);
  }
  return density;
}
