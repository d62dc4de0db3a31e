import { MAD_FACTOR } from '../robust-location.ts';
import { quantileSorted } from '../quantiles.ts';

/** 1.4826 x the median of values that are 0 or more, none of them NaN. */
export function medianAbsolute(values: Float64Array): number {
  return MAD_FACTOR * quantileSorted(values.slice().sort(), 0.5);
}
