import { tooFew, notEstimable, type Estimate } from '../estimable.ts';
import { mean } from '../moments.ts';
import { withinBaseline, type ChartOptions } from './baseline.ts';
import { MOVING_RANGE_FACTOR, movingRanges } from './moving-range.ts';

export interface IndividualsChart {
  readonly centre: number;
  /** Mean moving range / 1.128. */
  readonly sigma: number;
  readonly lower: number;
  readonly upper: number;
  /** Indices of the values outside the limits, from 0. */
  readonly signals: readonly number[];
  readonly meanMovingRange: number;
  readonly movingRanges: Float64Array;
  /** 3.267 mean moving ranges. */
  readonly movingRangeUpper: number;
  readonly movingRangeSignals: readonly number[];
}

function indicesWhere(values: Float64Array, test: (value: number) => boolean): number[] {
  return Array.from(values, (_, i) => i).filter((i) => test(values[i] ?? NaN));
}

/**
 * Individuals and moving range chart (NIST/SEMATECH e-Handbook 6.3.2.2). Needs one pair of neighbouring values;
 * limits from fewer than about 20 are loose.
 */
export function individualsChart(
  values: ArrayLike<number>,
  options: ChartOptions = {}
): Estimate<IndividualsChart> {
  const baseline = withinBaseline(values, options);
  const inBaseline = movingRanges(baseline);
  if (inBaseline.count === 0) return tooFew(0, 1);
  if (inBaseline.mean === 0) return notEstimable('no-variation', inBaseline.count + 1);
  const centre = mean(baseline);
  const sigma = inBaseline.mean / MOVING_RANGE_FACTOR;
  const lower = centre - 3 * sigma;
  const upper = centre + 3 * sigma;
  const { ranges } = movingRanges(values);
  const movingRangeUpper = 3.267 * inBaseline.mean;
  return {
    estimable: true,
    centre,
    sigma,
    lower,
    upper,
    signals: indicesWhere(Float64Array.from(values), (value) => value < lower || value > upper),
    meanMovingRange: inBaseline.mean,
    movingRanges: ranges,
    movingRangeUpper,
    movingRangeSignals: indicesWhere(ranges, (range) => range > movingRangeUpper)
  };
}
