import { tooFew, notEstimable, type Estimate } from './estimable.ts';

export interface SeasonFit {
  /** Level of each group; NaN for a group without values. */
  readonly levels: Float64Array;
  /** Coefficients of cos and sin of 2 pi month / 12. */
  readonly cosine: number;
  readonly sine: number;
  /** Half the swing between the highest and the lowest point of the wave. */
  readonly amplitude: number;
  /** Where in the year the wave is highest: 0 <= month < 12 on the scale of the input. */
  readonly peakMonth: number;
  /** Observed less fitted; NaN where the value is missing. */
  readonly residuals: Float64Array;
  /** NaN when no degree of freedom is left. */
  readonly residualSd: number;
  /** Different months with a value. */
  readonly months: number;
}

export interface SeasonOptions {
  /** Group (for instance place) of each value, from 0; one group when left out. */
  readonly groups?: ArrayLike<number>;
  /** Different months needed; a year and a half by default, below which a drift looks like a season. */
  readonly needMonths?: number;
}

function groupMeans(values: Float64Array, groups: Int32Array): Float64Array {
  const count = groups.reduce((most, group) => Math.max(most, group + 1), 0);
  const sums = new Float64Array(count);
  const totals = new Float64Array(count);
  values.forEach((value, i) => {
    const group = groups[i] ?? NaN;
    if (Number.isNaN(value)) return;
    sums[group] = (sums[group] ?? 0) + value;
    totals[group] = (totals[group] ?? 0) + 1;
  });
  return sums.map((sum, group) => sum / (totals[group] ?? NaN));
}

function centredByGroup(values: Float64Array, groups: Int32Array): Float64Array {
  const means = groupMeans(values, groups);
  return values.map((value, i) => value - (means[groups[i] ?? NaN] ?? NaN));
}

/** Sum of products over the places where both are present. */
function dot(x: Float64Array, y: Float64Array): number {
  return x.reduce((sum, value, i) => (Number.isNaN(value) ? sum : sum + value * (y[i] ?? NaN)), 0);
}

/** Least-squares coefficients of y on two columns, all three centred by group; undefined where they coincide. */
function waveCoefficients(
  y: Float64Array,
  cosines: Float64Array,
  sines: Float64Array
): { cosine: number; sine: number } | undefined {
  const [cc, ss, cs] = [dot(cosines, cosines), dot(sines, sines), dot(cosines, sines)];
  const determinant = cc * ss - cs * cs;
  if (!(determinant > 1e-9 * cc * cc)) return undefined;
  return {
    cosine: (ss * dot(cosines, y) - cs * dot(sines, y)) / determinant,
    sine: (cc * dot(sines, y) - cs * dot(cosines, y)) / determinant
  };
}

/**
 * A yearly wave by least squares: value = level of its group + b cos(2 pi month / 12) + c sin(2 pi month / 12),
 * with months counted on (13 is the next year's first). Every value counts the same.
 */
export function fitSeason(
  values: ArrayLike<number>,
  months: ArrayLike<number>,
  options: SeasonOptions = {}
): Estimate<SeasonFit> {
  const groups = Int32Array.from(values, (_, i) => options.groups?.[i] ?? 0);
  const y = Float64Array.from(values, (value, i) => (Number.isNaN(months[i]) ? NaN : value));
  const seen = new Set(Array.from(y, (_, i) => months[i]).filter((_, i) => !Number.isNaN(y[i]))).size;
  const need = options.needMonths ?? 18;
  if (seen < need) return tooFew(seen, need);

  const column = (wave: (angle: number) => number): Float64Array =>
    y.map((value, i) => (Number.isNaN(value) ? NaN : wave((Math.PI * (months[i] ?? NaN)) / 6)));
  const cosines = column(Math.cos);
  const sines = column(Math.sin);
  const fitted = waveCoefficients(
    centredByGroup(y, groups),
    centredByGroup(cosines, groups),
    centredByGroup(sines, groups)
  );
  if (fitted === undefined) return notEstimable('not-separable', seen);
  const { cosine, sine } = fitted;
  const level = y.map((value, i) => value - cosine * (cosines[i] ?? NaN) - sine * (sines[i] ?? NaN));
  const levels = groupMeans(level, groups);
  const residuals = centredByGroup(level, groups);
  const present = (array: Float64Array): number => array.filter((value) => !Number.isNaN(value)).length;
  const df = present(y) - 2 - present(levels);
  return {
    estimable: true,
    levels,
    cosine,
    sine,
    amplitude: Math.hypot(cosine, sine),
    peakMonth: ((Math.atan2(sine, cosine) * 6) / Math.PI + 12) % 12,
    residuals,
    residualSd: df > 0 ? Math.sqrt(dot(residuals, residuals) / df) : NaN,
    months: seen
  };
}
