import type { Steps } from '../steps.ts';
import { addOuterProduct, invertTriangle } from './cholesky.ts';
import type { Criterion } from './criterion.ts';

/** Multiplications between two rests. */
const workAStep = 1 << 20;

/** Precisions of the predicted effects of one factor, by level of the design. */
export interface LevelPrecision {
  /** Variance of prediction error. */
  readonly variance: Float64Array;
  /** The same with the mean taken as known. */
  readonly conditionalVariance: Float64Array;
  /** Variance of the error of effect - mean of effects. */
  readonly contrastVariance: Float64Array;
  /** Correlation of the errors of the effect and of the mean effect of the other factor's levels it met. */
  readonly errorCorrelation: Float64Array;
}

export interface Precision {
  readonly meanVariance: number;
  readonly small: LevelPrecision;
  readonly large: LevelPrecision;
}

/** Inverse of the reduced matrix of small levels and intercept: with and without the intercept's own error. */
interface Inverse {
  readonly width: number;
  readonly full: Float64Array;
  readonly conditional: Float64Array;
}

function* invertReduced(criterion: Criterion): Steps<Inverse> {
  const width = criterion.size - 1;
  const triangle = yield* invertTriangle(criterion.factor, criterion.size, width);
  const conditional = new Float64Array(width * width);
  let work = 0;
  for (let k = 0; k < width - 1; k += 1) {
    addOuterProduct(conditional, triangle, width, k);
    work += (k * k) / 2;
    if (work < workAStep) continue;
    work = 0;
    yield;
  }
  const full = conditional.slice();
  addOuterProduct(full, triangle, width, width - 1);
  mirror(full, width);
  yield;
  return { width, full, conditional };
}

/** Copies the lower triangle to the upper one. */
function mirror(matrix: Float64Array, width: number): void {
  for (let i = 0; i < width; i += 1) {
    for (let j = 0; j < i; j += 1) matrix[j * width + i] = matrix[i * width + j] as number;
  }
}

function times({ width, full }: Inverse, vector: Float64Array): Float64Array {
  return vector.map((_, i) => {
    let sum = 0;
    for (let j = 0; j < width; j += 1) sum += (full[i * width + j] as number) * (vector[j] as number);
    return sum;
  });
}

function dot(x: Float64Array, y: Float64Array): number {
  return x.reduce((sum, value, i) => sum + value * (y[i] as number), 0);
}

/** The share of a level among those with records, 0 for one without. */
function equalShares(weights: Float64Array): Float64Array {
  const levels = weights.reduce((count, weight) => (weight > 0 ? count + 1 : count), 0);
  return weights.map((weight) => (weight > 0 ? 1 / levels : 0));
}

/** Column that ties large level b to small levels and intercept, over its divisor, times a share; added to target. */
function addTie(criterion: Criterion, b: number, share: number, target: Float64Array, at: number): void {
  const { design, sums, smallScale, largeScale } = criterion;
  const scale = (share * largeScale) / criterion.largeDivisor(b);
  for (let x = design.cellStart[b] as number; x < (design.cellStart[b + 1] as number); x += 1) {
    const place = at + (design.cellSmall[x] as number);
    target[place] = (target[place] as number) + scale * smallScale * (sums.cellWeight[x] as number);
  }
  const mean = at + criterion.size - 2;
  target[mean] = (target[mean] as number) + scale * (sums.largeWeight[b] as number);
}

/** Correlation of the errors of each small effect and of the mean of the large levels it met. */
function* smallErrorCorrelation(criterion: Criterion, inverse: Inverse): Steps<Float64Array> {
  const { design, sums } = criterion;
  const { width, full } = inverse;
  const levels = width - 1;
  const ties = new Float64Array(levels * width);
  const own = new Float64Array(levels);
  for (let b = 0; b < design.largeLevels.length; b += 1) {
    for (let x = design.cellStart[b] as number; x < (design.cellStart[b + 1] as number); x += 1) {
      const i = design.cellSmall[x] as number;
      const share = (sums.cellWeight[x] as number) / (sums.smallWeight[i] as number);
      if (!(share > 0)) continue;
      own[i] = (own[i] as number) + (share * share) / criterion.largeDivisor(b);
      addTie(criterion, b, share, ties, i * width);
    }
    yield;
  }
  yield;
  for (let i = 0; i < levels; i += 1) {
    const tie = ties.subarray(i * width, (i + 1) * width);
    const carried = times(inverse, tie);
    const variance = (full[i * width + i] as number) * ((own[i] as number) + dot(tie, carried));
    own[i] = variance > 0 ? -(carried[i] as number) / Math.sqrt(variance) : 0;
    yield;
  }
  return own;
}

function* smallPrecision(criterion: Criterion, inverse: Inverse): Steps<LevelPrecision> {
  const { width, full, conditional } = inverse;
  const scale = criterion.variance * criterion.smallScale ** 2;
  const bothVary = criterion.smallScale > 0 && criterion.largeScale > 0;
  const shares = new Float64Array(width);
  shares.set(equalShares(criterion.sums.smallWeight));
  const withMean = times(inverse, shares);
  const ofMean = dot(shares, withMean);
  const level = new Float64Array(width - 1);
  return {
    variance: level.map((_, i) => scale * (full[i * width + i] as number)),
    conditionalVariance: level.map((_, i) => scale * (conditional[i * width + i] as number)),
    contrastVariance: level.map(
      (_, i) => scale * ((full[i * width + i] as number) - 2 * (withMean[i] as number) + ofMean)
    ),
    errorCorrelation: bothVary ? yield* smallErrorCorrelation(criterion, inverse) : level
  };
}

/** Quadratic form of a large level's cell weights in a matrix over the small levels. */
function cellForm(criterion: Criterion, b: number, matrix: Float64Array, width: number): number {
  const { cellStart, cellSmall } = criterion.design;
  const { cellWeight } = criterion.sums;
  const from = cellStart[b] as number;
  const to = cellStart[b + 1] as number;
  let form = 0;
  for (let x = from; x < to; x += 1) {
    const row = (cellSmall[x] as number) * width;
    const weight = cellWeight[x] as number;
    let crossed = 0;
    for (let y = from; y < x; y += 1) {
      crossed += (matrix[row + (cellSmall[y] as number)] as number) * (cellWeight[y] as number);
    }
    const own = matrix[row + (cellSmall[x] as number)] as number;
    form += weight * (2 * crossed + own * weight);
  }
  return form;
}

/** The part of the large factor's precisions that all its levels share: their mean. */
interface LargeMean {
  readonly shares: Float64Array;
  readonly variance: number;
  /** Inverse times the column that ties the mean to small levels and intercept. */
  readonly carried: Float64Array;
}

function largeMean(criterion: Criterion, inverse: Inverse): LargeMean {
  const shares = equalShares(criterion.sums.largeWeight);
  const tie = new Float64Array(inverse.width);
  let alone = 0;
  shares.forEach((share, b) => {
    addTie(criterion, b, share, tie, 0);
    alone += (share * share) / criterion.largeDivisor(b);
  });
  const carried = times(inverse, tie);
  return { shares, carried, variance: alone + dot(tie, carried) };
}

/** Precisions of one large level, variances relative to scale^2 of its factor times the residual variance. */
function largeLevel(criterion: Criterion, inverse: Inverse, mean: LargeMean, b: number) {
  const { sums, smallScale, largeScale } = criterion;
  const { width, full, conditional } = inverse;
  const divisor = criterion.largeDivisor(b);
  const weight = sums.largeWeight[b] as number;
  const form = cellForm(criterion, b, full, width);
  const withMean = meanForm(criterion, b, inverse);
  const throughSmall = smallScale * form + weight * withMean;
  const throughMean = smallScale * withMean + weight * (full[width * width - 1] as number);
  const tied = smallScale * throughSmall + weight * throughMean;
  const alone = smallScale ** 2 * cellForm(criterion, b, conditional, width);
  const variance = 1 / divisor + (largeScale / divisor) ** 2 * tied;
  const tie = new Float64Array(width);
  addTie(criterion, b, 1, tie, 0);
  const covariance = (mean.shares[b] as number) / divisor + dot(tie, mean.carried);
  const joint = (variance * form) / weight ** 2;
  return {
    variance,
    conditional: 1 / divisor + (largeScale / divisor) ** 2 * alone,
    contrast: variance - 2 * covariance + mean.variance,
    correlation: joint > 0 ? -((largeScale / divisor) * throughSmall) / (weight * Math.sqrt(joint)) : 0
  };
}

/** A large level's cell weights against the intercept's row of the inverse. */
function meanForm({ design, sums }: Criterion, b: number, { full, width }: Inverse): number {
  const row = (width - 1) * width;
  let form = 0;
  for (let x = design.cellStart[b] as number; x < (design.cellStart[b + 1] as number); x += 1) {
    form += (full[row + (design.cellSmall[x] as number)] as number) * (sums.cellWeight[x] as number);
  }
  return form;
}

function* largePrecision(criterion: Criterion, inverse: Inverse): Steps<LevelPrecision> {
  const levels = criterion.design.largeLevels.length;
  const scale = criterion.variance * criterion.largeScale ** 2;
  const bothVary = criterion.smallScale > 0 && criterion.largeScale > 0;
  const mean = largeMean(criterion, inverse);
  const precision = {
    variance: new Float64Array(levels),
    conditionalVariance: new Float64Array(levels),
    contrastVariance: new Float64Array(levels),
    errorCorrelation: new Float64Array(levels)
  };
  for (let b = 0; b < levels; b += 1) {
    const level = largeLevel(criterion, inverse, mean, b);
    precision.variance[b] = scale * level.variance;
    precision.conditionalVariance[b] = scale * level.conditional;
    precision.contrastVariance[b] = scale * level.contrast;
    precision.errorCorrelation[b] = bothVary ? level.correlation : 0;
    yield;
  }
  return precision;
}

/**
 * Error variances of mean and effects at the point of the criterion, from the inverse of Henderson's equations.
 */
export function* precisionOf(criterion: Criterion): Steps<Precision> {
  const inverse = yield* invertReduced(criterion);
  const { width, full } = inverse;
  return {
    meanVariance: criterion.variance * (full[width * width - 1] as number),
    small: yield* smallPrecision(criterion, inverse),
    large: yield* largePrecision(criterion, inverse)
  };
}
