import { notEstimable, tooFew, type Estimate } from './estimable.ts';

/** What a straight line says of errors: nothing, a constant, a share of the size, both, or one of the two. */
export const offsetOrScaleKinds = ['neither', 'constant', 'share', 'both', 'cannotTell'] as const;
export type OffsetOrScaleKind = (typeof offsetOrScaleKinds)[number];

/** A value and its standard error. */
export interface Estimated {
  readonly value: number;
  readonly error: number;
}

export interface OffsetOrScale {
  readonly n: number;
  /** Of the line y = offset + scale x. */
  readonly offset: Estimated;
  readonly scale: Estimated;
  /** Of a constant alone and of a line through zero alone. */
  readonly constantAlone: Estimated;
  readonly shareAlone: Estimated;
  /** Standard deviation of the residuals at weight 1, degrees of freedom n - 2. */
  readonly residual: number;
}

/** Points from which a line with its errors is worked out. */
const fewest = 3;

interface Sums {
  w: number;
  x: number;
  y: number;
  n: number;
}

function weightedMeans(x: ArrayLike<number>, y: ArrayLike<number>, weight: ArrayLike<number>): Sums {
  const sums: Sums = { w: 0, x: 0, y: 0, n: 0 };
  for (let k = 0; k < x.length; k++) {
    const w = weight[k] ?? 0;
    if (!(w > 0) || !Number.isFinite((x[k] ?? NaN) + (y[k] ?? NaN))) continue;
    sums.n++;
    sums.w += w;
    sums.x += w * (x[k] ?? 0);
    sums.y += w * (y[k] ?? 0);
  }
  return { ...sums, x: sums.x / sums.w, y: sums.y / sums.w };
}

/**
 * Whether errors y are a constant or a share of the size x: weighted least squares of y = offset + scale x, and of
 * either alone. Weights are relative precisions; entries with a weight of 0 or less, or a missing value, do not
 * count. Standard errors use the residual spread of the whole line throughout, so that the three can be compared.
 *
 * Checked against NIST StRD, linear regression, Norris (line) and NoInt1 (line through zero).
 */
export function offsetOrScale(
  x: ArrayLike<number>,
  y: ArrayLike<number>,
  weight: ArrayLike<number>
): Estimate<OffsetOrScale> {
  const mean = weightedMeans(x, y, weight);
  if (mean.n < fewest) return tooFew(mean.n, fewest);
  let sxx = 0;
  let sxy = 0;
  let throughXX = 0;
  let throughXY = 0;
  for (let k = 0; k < x.length; k++) {
    const w = weight[k] ?? 0;
    const [xk, yk] = [x[k] ?? NaN, y[k] ?? NaN];
    if (!(w > 0) || !Number.isFinite(xk + yk)) continue;
    sxx += w * (xk - mean.x) * (xk - mean.x);
    sxy += w * (xk - mean.x) * (yk - mean.y);
    throughXX += w * xk * xk;
    throughXY += w * xk * yk;
  }
  if (!(sxx > 0)) return notEstimable('no-variation', mean.n);
  const scale = sxy / sxx;
  const offset = mean.y - scale * mean.x;
  let squares = 0;
  for (let k = 0; k < x.length; k++) {
    const w = weight[k] ?? 0;
    const rest = (y[k] ?? NaN) - offset - scale * (x[k] ?? NaN);
    if (w > 0 && Number.isFinite(rest)) squares += w * rest * rest;
  }
  const residual = Math.sqrt(squares / (mean.n - 2));
  return {
    estimable: true,
    n: mean.n,
    offset: { value: offset, error: residual * Math.sqrt(1 / mean.w + (mean.x * mean.x) / sxx) },
    scale: { value: scale, error: residual / Math.sqrt(sxx) },
    constantAlone: { value: mean.y, error: residual / Math.sqrt(mean.w) },
    shareAlone: { value: throughXY / throughXX, error: residual / Math.sqrt(throughXX) },
    residual
  };
}

const isClear = ({ value, error }: Estimated, sd: number): boolean => Math.abs(value) > sd * error;

/**
 * What the line says, each part told from zero at `sd` standard errors. Where neither part of the line is clear but
 * one of the two alone would be, there is something and the data cannot tell which.
 */
export function kindOfLine(line: OffsetOrScale, sd: number): OffsetOrScaleKind {
  const hasOffset = isClear(line.offset, sd);
  const hasScale = isClear(line.scale, sd);
  if (hasOffset && hasScale) return 'both';
  if (hasOffset) return 'constant';
  if (hasScale) return 'share';
  return isClear(line.constantAlone, sd) || isClear(line.shareAlone, sd) ? 'cannotTell' : 'neither';
}
