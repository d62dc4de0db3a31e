import { MAD_FACTOR } from '../robust-location.ts';
import { quantilesUnsorted } from '../selection.ts';

/** 1.4826 x the median of values that are 0 or more, none of them NaN. */
export function medianAbsolute(values: Float64Array): number {
  return MAD_FACTOR * (quantilesUnsorted(values, [0.5])[0] ?? NaN);
}
