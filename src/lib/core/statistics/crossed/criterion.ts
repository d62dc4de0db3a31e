import type { Steps } from '../steps.ts';
import { choleskySteps } from './cholesky.ts';
import type { Design } from './design.ts';
import type { DesignSums } from './sums.ts';

/** Pairs of cells taken out between two rests. */
const pairsAStep = 1 << 19;

/**
 * The profiled restricted likelihood criterion (-2 log) of the crossed model as a function of the two relative
 * standard deviations, by elimination of the large factor (Henderson's equations; Bates et al. 2015, J Stat Softw
 * 67(1)). After `evaluate` the factor of the bordered matrix of the last point stays for effects and precisions.
 */
export class Criterion {
  readonly design: Design;
  readonly sums: DesignSums;
  /** Small levels + intercept + data. */
  readonly size: number;
  readonly factor: Float64Array;
  smallScale = NaN;
  largeScale = NaN;
  /** Penalised residual sum of squares of the last point. */
  residualSquares = NaN;

  // What depends on the scale of the large factor alone.
  private readonly reduced: Float64Array;
  private logLarge = 0;

  constructor(design: Design, sums: DesignSums) {
    this.design = design;
    this.sums = sums;
    this.size = design.smallLevels.length + 2;
    this.reduced = new Float64Array(this.size * this.size);
    this.factor = new Float64Array(this.size * this.size);
  }

  /** The criterion, NaN where the residual vanishes. Scales are relative to the residual standard deviation. */
  *evaluate(smallScale: number, largeScale: number): Steps<number> {
    if (largeScale !== this.largeScale) yield* this.eliminateLarge(largeScale);
    this.smallScale = smallScale;
    this.scaleReduced(smallScale);
    yield* choleskySteps(this.factor, this.size);
    yield;
    const { size, factor } = this;
    const last = factor[size * size - 1] as number;
    this.residualSquares = last * last;
    let logSmall = 0;
    for (let i = 0; i < size - 2; i += 1) logSmall += Math.log(factor[i * size + i] as number);
    const logMean = Math.log(factor[(size - 2) * size + size - 2] as number);
    const df = this.sums.n - 1;
    const fit = df * (1 + Math.log((2 * Math.PI * this.residualSquares) / df));
    return this.logLarge + 2 * logSmall + 2 * logMean + fit - this.sums.logWeights;
  }

  /** Residual variance at the last point. */
  get variance(): number {
    return this.residualSquares / (this.sums.n - 1);
  }

  /** How much a large level's own records are shrunk: scale^2 weight + 1. */
  largeDivisor(level: number): number {
    return this.largeScale ** 2 * (this.sums.largeWeight[level] as number) + 1;
  }

  private *eliminateLarge(largeScale: number): Steps<void> {
    const { sums, reduced, size } = this;
    const { largeWeight, largeSum } = sums;
    this.largeScale = largeScale;
    this.startReduced();
    const mean = (size - 2) * size;
    const data = mean + size;
    this.logLarge = 0;
    const { cellStart } = this.design;
    let pairs = 0;
    for (let b = 0; b < largeWeight.length; b += 1) {
      const weight = largeWeight[b] as number;
      const sum = largeSum[b] as number;
      const divisor = this.largeDivisor(b);
      const share = largeScale ** 2 / divisor;
      this.logLarge += Math.log(divisor);
      if (share === 0) continue;
      this.takeLevel(b, share);
      reduced[mean + size - 2] = (reduced[mean + size - 2] as number) - share * weight * weight;
      reduced[data + size - 2] = (reduced[data + size - 2] as number) - share * weight * sum;
      reduced[data + size - 1] = (reduced[data + size - 1] as number) - share * sum * sum;
      const cells = (cellStart[b + 1] as number) - (cellStart[b] as number);
      pairs += (cells * cells) / 2;
      if (pairs < pairsAStep) continue;
      pairs = 0;
      yield;
    }
  }

  /** The matrix before anything is eliminated. */
  private startReduced(): void {
    const { sums, reduced, size } = this;
    reduced.fill(0);
    const mean = (size - 2) * size;
    const data = mean + size;
    for (let i = 0; i < size - 2; i += 1) {
      reduced[i * size + i] = sums.smallWeight[i] as number;
      reduced[mean + i] = sums.smallWeight[i] as number;
      reduced[data + i] = sums.smallSum[i] as number;
    }
    reduced[mean + size - 2] = sums.weight;
    reduced[data + size - 2] = sums.sum;
    reduced[data + size - 1] = sums.squares;
  }

  /** Takes one large level out of the rows of the small factor: the inner loop of the whole fit, two rows at a time. */
  private takeLevel(b: number, share: number): void {
    const { cellStart } = this.design;
    const from = cellStart[b] as number;
    const to = cellStart[b + 1] as number;
    let x = from;
    for (; x + 1 < to; x += 2) this.takeRows(from, x, share);
    if (x < to) this.takeRow(from, x, x, share);
    this.takeBorder(b, share);
  }

  /** The rows of cells x and x + 1, which share all cells before them. */
  private takeRows(from: number, x: number, share: number): void {
    const { reduced, size } = this;
    const { cellSmall } = this.design;
    const { cellWeight } = this.sums;
    const upper = (cellSmall[x] as number) * size;
    const lower = (cellSmall[x + 1] as number) * size;
    const upperShare = share * (cellWeight[x] as number);
    const lowerShare = share * (cellWeight[x + 1] as number);
    for (let y = from; y <= x; y += 1) {
      const column = cellSmall[y] as number;
      const weight = cellWeight[y] as number;
      reduced[upper + column] = (reduced[upper + column] as number) - upperShare * weight;
      reduced[lower + column] = (reduced[lower + column] as number) - lowerShare * weight;
    }
    this.takeRow(x + 1, x + 1, x + 1, share);
  }

  /** Cells from to last in the row of cell x. */
  private takeRow(from: number, last: number, x: number, share: number): void {
    const { reduced, size } = this;
    const { cellSmall } = this.design;
    const { cellWeight } = this.sums;
    const row = (cellSmall[x] as number) * size;
    const shared = share * (cellWeight[x] as number);
    for (let y = from; y <= last; y += 1) {
      const at = row + (cellSmall[y] as number);
      reduced[at] = (reduced[at] as number) - shared * (cellWeight[y] as number);
    }
  }

  /** The intercept's and the data's entries of one large level. */
  private takeBorder(b: number, share: number): void {
    const { reduced, size } = this;
    const { cellStart, cellSmall } = this.design;
    const { cellWeight } = this.sums;
    const weight = this.sums.largeWeight[b] as number;
    const sum = this.sums.largeSum[b] as number;
    const mean = (size - 2) * size;
    const to = cellStart[b + 1] as number;
    for (let x = cellStart[b] as number; x < to; x += 1) {
      const shared = share * (cellWeight[x] as number);
      const i = cellSmall[x] as number;
      reduced[mean + i] = (reduced[mean + i] as number) - shared * weight;
      reduced[mean + size + i] = (reduced[mean + size + i] as number) - shared * sum;
    }
  }

  /** The lower triangle with the scale of the small factor in place. */
  private scaleReduced(scale: number): void {
    const { reduced, factor, size } = this;
    const levels = size - 2;
    for (let i = 0; i < levels; i += 1) {
      const row = i * size;
      for (let j = 0; j <= i; j += 1) factor[row + j] = scale * scale * (reduced[row + j] as number);
      factor[row + i] = (factor[row + i] as number) + 1;
    }
    for (let i = levels; i < size; i += 1) {
      const row = i * size;
      for (let j = 0; j < levels; j += 1) factor[row + j] = scale * (reduced[row + j] as number);
      for (let j = levels; j <= i; j += 1) factor[row + j] = reduced[row + j] as number;
    }
  }
}
