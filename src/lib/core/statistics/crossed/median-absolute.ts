import { MAD_FACTOR } from '../robust-location.ts';
import { quantilesUnsortedSteps } from '../selection.ts';
import type { Steps } from '../steps.ts';

/** 1.4826 x the median of values that are 0 or more, none of them NaN. */
export function* medianAbsolute(values: Float64Array): Steps<number> {
  const [middle = NaN] = yield* quantilesUnsortedSteps(values, [0.5]);
  return MAD_FACTOR * middle;
}
