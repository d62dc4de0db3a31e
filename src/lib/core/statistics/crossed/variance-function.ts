import { notEstimable, type Estimate } from '../estimable.ts';
import { MAD_FACTOR } from '../robust-location.ts';
import type { SearchControl } from '../minimise/nelder-mead.ts';
import { minimiseScalesSteps } from '../minimise/scales.ts';
import { quantilesUnsortedSteps } from '../selection.ts';
import { filled, runSteps, stretches, type Steps } from '../steps.ts';
import { Criterion } from './criterion.ts';
import { buildDesign, type CrossedRecords, type Design } from './design.ts';
import { predictEffects, residualsOf } from './effects.ts';
import { assembleFit, type CrossedFit, type LevelCounts } from './fit.ts';
import { searchCriterion } from './search.ts';
import { designSums } from './sums.ts';

const BINS = 40;
const FEWEST_PER_BIN = 10;

/** Weights of records whose error variance is sigma^2 (1 + phi / size^2). */
export function varianceWeights(size: Float64Array, phi: number): Steps<Float64Array> {
  return filled(new Float64Array(size.length), (k) => {
    const s = size[k] as number;
    return 1 / (1 + phi / (s * s));
  });
}

/** Records in bins of about equal number by size; made once, used in every pass. */
export interface SizeBins {
  readonly bin: Int32Array;
  /** Mean of 1 / size^2 in each bin. */
  readonly inverseSquare: Float64Array;
  readonly count: Int32Array;
}

export function* binBySize(size: Float64Array): Steps<SizeBins> {
  const bins = Math.max(2, Math.min(BINS, Math.floor(size.length / FEWEST_PER_BIN)));
  const inner = Array.from({ length: bins - 1 }, (_, i) => (i + 1) / bins);
  const edges = Float64Array.from(yield* quantilesUnsortedSteps(size, inner));
  const count = new Int32Array(bins);
  const inverseSquare = new Float64Array(bins);
  const bin = yield* filled(new Int32Array(size.length), (k) => {
    const s = size[k] as number;
    let [low, high] = [0, edges.length];
    while (low < high) {
      const middle = (low + high) >> 1;
      if ((edges[middle] as number) < s) low = middle + 1;
      else high = middle;
    }
    count[low] = (count[low] as number) + 1;
    inverseSquare[low] = (inverseSquare[low] as number) + 1 / (s * s);
    return low;
  });
  return { bin, count, inverseSquare: inverseSquare.map((sum, i) => sum / (count[i] as number)) };
}

/** Robust variance of the residuals in each bin: (1.4826 median |r|)^2. */
function* binVariances({ bin, count }: SizeBins, residuals: Float64Array): Steps<Float64Array> {
  const start = new Int32Array(count.length + 1);
  count.forEach((n, i) => (start[i + 1] = (start[i] as number) + n));
  const sorted = new Float64Array(residuals.length);
  const next = start.slice();
  yield* stretches(residuals.length, (from, to) => {
    for (let k = from; k < to; k += 1) {
      const group = bin[k] as number;
      const at = next[group] as number;
      sorted[at] = Math.abs(residuals[k] as number);
      next[group] = at + 1;
    }
  });
  const variances = new Float64Array(count.length);
  for (let i = 0; i < count.length; i += 1) {
    const [middle = NaN] = yield* quantilesUnsortedSteps(sorted.subarray(start[i], start[i + 1]), [0.5]);
    variances[i] = (MAD_FACTOR * middle) ** 2;
  }
  return variances;
}

/** Weighted straight line y = base + slope x with neither below 0. */
function nonNegativeLine(x: Float64Array, y: Float64Array, w: Float64Array): { base: number; slope: number } {
  let [sw, sx, sy, sxx, sxy] = [0, 0, 0, 0, 0];
  w.forEach((weight, i) => {
    const [xi, yi] = [x[i] as number, y[i] as number];
    sw += weight;
    sx += weight * xi;
    sy += weight * yi;
    sxx += weight * xi * xi;
    sxy += weight * xi * yi;
  });
  const slope = (sw * sxy - sx * sy) / (sw * sxx - sx * sx);
  const base = (sy - slope * sx) / sw;
  if (!(slope > 0)) return { base: sy / sw, slope: 0 };
  return base > 0 ? { base, slope } : { base: 0, slope: sxy / sxx };
}

/**
 * The phi of an error variance sigma^2 (1 + phi / size^2), from residuals: robust variances by size bin against
 * 1 / size^2, reweighted by the fit. 0 where small sizes are no noisier.
 */
export function* phiFromResiduals(bins: SizeBins, residuals: Float64Array): Steps<number> {
  const scale = Math.max(...bins.inverseSquare);
  const x = bins.inverseSquare.map((value) => value / scale);
  const y = yield* binVariances(bins, residuals);
  let line = nonNegativeLine(x, y, Float64Array.from(bins.count));
  for (let step = 0; step < 50; step += 1) {
    const before = line;
    const weights = x.map(
      (xi, i) => (bins.count[i] as number) / Math.max(before.base + before.slope * xi, 1e-300) ** 2
    );
    line = nonNegativeLine(x, y, weights);
    if (Math.abs(line.slope - before.slope) <= 1e-9 * (line.slope + line.base)) break;
  }
  // With no constant part at all phi would be without limit: leave a thousandth of it.
  const base = Math.max(line.base, 1e-3 * (line.base + line.slope));
  return base > 0 ? line.slope / base / scale : 0;
}

/** Sizes of the usable records; a size must be more than 0. */
export function designSizes(design: Design, size: ArrayLike<number>): Steps<Float64Array> {
  return filled(new Float64Array(design.record.length), (usable) => {
    const k = design.record[usable] as number;
    const s = size[k] ?? NaN;
    if (!(s > 0)) throw new RangeError(`size: ${s} at record ${k}, need more than 0`);
    return s;
  });
}

export interface VarianceFunctionFit extends CrossedFit {
  /** Error variance = sigma^2 (1 + phi / size^2). */
  readonly phi: number;
}

export type VarianceFunctionOptions = SearchControl & LevelCounts;

/**
 * The criterion as a function of the two relative scales and of the noise scale sqrt(phi) / typical size. Weights and
 * sums are made anew for every noise scale.
 */
function noiseSurface(design: Design, sizes: Float64Array, typical: number, start: Criterion) {
  let [criterion, current] = [start, 0];
  const phiOf = (scale: number): number => (scale * typical) ** 2;
  const moveTo = function* (scale: number): Steps<void> {
    const own = yield* varianceWeights(sizes, phiOf(scale));
    const weights = own.map((w, k) => w * (design.weights[k] as number));
    [criterion, current] = [new Criterion(design, yield* designSums(design, weights)), scale];
  };
  const evaluate = function* ([small = NaN, large = NaN, scale = NaN]: readonly number[]): Steps<number> {
    if (scale !== current) yield* moveTo(scale);
    return yield* criterion.evaluate(small, large);
  };
  return { evaluate, standing: () => ({ criterion, phi: phiOf(current) }) };
}

/**
 * Fits phi together with the crossed effects by restricted maximum likelihood. Exact and slow; `fitCrossedRobust`
 * estimates phi the cheap way.
 */
export function fitVarianceFunction(
  records: CrossedRecords,
  size: ArrayLike<number>,
  options: VarianceFunctionOptions = {}
): Estimate<VarianceFunctionFit> {
  return runSteps(varianceFunctionSteps(records, size, options));
}

function* varianceFunctionSteps(
  records: CrossedRecords,
  size: ArrayLike<number>,
  options: VarianceFunctionOptions
): Steps<Estimate<VarianceFunctionFit>> {
  const design = yield* buildDesign(records);
  const sizes = yield* designSizes(design, size);
  const plain = yield* searchCriterion(design, yield* designSums(design, design.weights), options);
  if (!plain.estimable) return plain;
  const { smallScale, largeScale } = plain.criterion;
  const residuals = yield* residualsOf(plain.criterion, predictEffects(plain.criterion));
  const rough = yield* phiFromResiduals(yield* binBySize(sizes), residuals);
  const [typical = NaN] = yield* quantilesUnsortedSteps(sizes, [0.5]);
  const surface = noiseSurface(design, sizes, typical, plain.criterion);
  const minimum = yield* minimiseScalesSteps(
    surface.evaluate,
    [smallScale, largeScale, Math.sqrt(rough) / typical],
    {
      ...options,
      free: [smallScale > 0, largeScale > 0, true]
    }
  );
  if (!minimum.converged && options.shouldStop?.() === true) {
    return notEstimable('stopped', design.record.length);
  }
  const value = yield* surface.evaluate(minimum.point);
  const { criterion, phi } = surface.standing();
  return { estimable: true, ...(yield* assembleFit(criterion, value, design.weights, options)), phi };
}
