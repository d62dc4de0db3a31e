import { tooFew, notEstimable, type Estimate } from '../estimable.ts';
import { mean } from '../moments.ts';
import { sortedPresent } from '../quantiles.ts';
import { logGamma } from '../special.ts';
import { individualsChart } from './individuals.ts';

// The share of a normal series below -3 and +3 sigma, so that gaps are judged as strictly as other charts.
const LOW_SHARE = 0.00135;
const HIGH_SHARE = 0.99865;

export interface CountGapLimits {
  readonly mean: number;
  /** Chance of an event at each opportunity: 1 / (1 + mean). */
  readonly probability: number;
  /** Median gap of that geometric law: the centre line. */
  readonly centre: number;
  /** Probability limits; a gap below `lower` is short (bad), above `upper` is long (good). */
  readonly lower: number;
  readonly upper: number;
}

export interface CountGapChart extends CountGapLimits {
  readonly short: readonly number[];
  readonly long: readonly number[];
  /** The symmetric 3-sigma limit, which flags too often; for comparing with sources that use it. */
  readonly threeSigmaUpper: number;
}

/** Smallest k with P(gap <= k) at or above the share. */
function geometricQuantile(share: number, probability: number): number {
  if (probability >= 1) return 0;
  const reached = (k: number): boolean => -Math.expm1((k + 1) * Math.log1p(-probability)) >= share;
  const guess = Math.max(0, Math.ceil(Math.log1p(-share) / Math.log1p(-probability) - 1));
  // The closed form can round to either side of a whole number.
  if (guess > 0 && reached(guess - 1)) return guess - 1;
  return reached(guess) ? guess : guess + 1;
}

/** Limits of gaps that are `average` opportunities long in the mean, over 0: from a pace known beforehand. */
export function gapLimits(average: number): CountGapLimits {
  if (!(average > 0)) throw new RangeError(`mean gap: ${average}, need more than 0`);
  return limitsAt(average);
}

function limitsAt(average: number): CountGapLimits {
  const probability = 1 / (1 + average);
  return {
    mean: average,
    probability,
    centre: geometricQuantile(0.5, probability),
    lower: geometricQuantile(LOW_SHARE, probability),
    upper: geometricQuantile(HIGH_SHARE, probability)
  };
}

/**
 * g chart: opportunities between rare events, with geometric probability limits (Kaminsky et al. 1992, J Qual
 * Technol 24:63; Benneyan 2001, Health Care Manag Sci 4:305). One short gap can almost never signal: watch runs of
 * them with an EWMA of `gapTransform`.
 */
export function gapChart(gaps: ArrayLike<number>): Estimate<CountGapChart> {
  const present = sortedPresent(gaps);
  if (present.length === 0) return tooFew(0, 1);
  const average = mean(present);
  const limits = limitsAt(average);
  const { lower, upper } = limits;
  const where = (test: (gap: number) => boolean): number[] =>
    Array.from(gaps, (_, i) => i).filter((i) => test(gaps[i] ?? NaN));
  return {
    estimable: true,
    ...limits,
    short: where((gap) => gap < lower),
    long: where((gap) => gap > upper),
    threeSigmaUpper: average + 3 * Math.sqrt(average * (average + 1))
  };
}

const POWER = 3.6;

/**
 * Time between events made nearly normal: t^(1 / 3.6) (Nelson 1994, J Qual Technol 26:166). No time at all counts as
 * half a unit.
 */
export function gapTransform(time: number): number {
  return (time === 0 ? 0.5 : time) ** (1 / POWER);
}

/**
 * Mean and standard deviation of `gapTransform` of times at random with a mean of `average`: then it is a Weibull
 * law of shape 3.6, whose moments are those of the gamma function at 1 + 1 / 3.6 and 1 + 2 / 3.6.
 */
export function gapTransformMoments(average: number): { readonly mean: number; readonly sd: number } {
  if (!(average > 0)) throw new RangeError(`mean gap: ${average}, need more than 0`);
  const first = Math.exp(logGamma(1 + 1 / POWER));
  const second = Math.exp(logGamma(1 + 2 / POWER));
  const scale = average ** (1 / POWER);
  return { mean: scale * first, sd: scale * Math.sqrt(second - first * first) };
}

const backTransform = (x: number): number => Math.max(0, x) ** POWER;

export interface TimeGapChart {
  /** On the transformed scale. */
  readonly transformed: {
    readonly values: Float64Array;
    readonly centre: number;
    readonly meanMovingRange: number;
    readonly lower: number;
    readonly upper: number;
  };
  /** On the scale of the times. */
  readonly centre: number;
  readonly lower: number;
  readonly upper: number;
  readonly short: readonly number[];
  readonly long: readonly number[];
  readonly meanTime: number;
}

/** t chart: times between rare events, individuals limits on the transformed scale (Nelson 1994). */
export function timeGapChart(times: ArrayLike<number>): Estimate<TimeGapChart> {
  const values = Float64Array.from(times, gapTransform);
  const chart = individualsChart(values);
  if (!chart.estimable) return chart;
  const where = (test: (x: number) => boolean): number[] =>
    chart.signals.filter((i) => test(values[i] ?? NaN));
  return {
    estimable: true,
    transformed: {
      values,
      centre: chart.centre,
      meanMovingRange: chart.meanMovingRange,
      lower: chart.lower,
      upper: chart.upper
    },
    centre: backTransform(chart.centre),
    lower: backTransform(chart.lower),
    upper: backTransform(chart.upper),
    short: where((x) => x < chart.lower),
    long: where((x) => x > chart.upper),
    meanTime: mean(times)
  };
}

export interface TimeGapLimits {
  readonly centre: number;
  readonly lower: number;
  readonly upper: number;
}

/** Limits of times between events at random, `average` long in the mean, over 0: quantiles of the exponential law. */
export function timeGapLimits(average: number): TimeGapLimits {
  if (!(average > 0)) throw new RangeError(`mean gap: ${average}, need more than 0`);
  const at = (share: number): number => -average * Math.log1p(-share);
  return { centre: at(0.5), lower: at(LOW_SHARE), upper: at(HIGH_SHARE) };
}

/** Chance that a gap lasts at least as long as the one still open, if events come at random at the old pace. */
export function openGapProbability(
  open: number,
  meanGap: number
): Estimate<{ readonly probability: number }> {
  if (!(meanGap > 0)) return notEstimable('no-variation', 0);
  return { estimable: true, probability: Math.exp(-open / meanGap) };
}
