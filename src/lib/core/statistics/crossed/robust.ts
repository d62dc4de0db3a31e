import { notEstimable, type Estimate } from '../estimable.ts';
import type { SearchControl } from '../minimise/nelder-mead.ts';
import { medianAbsolute } from './median-absolute.ts';
import { buildDesign, type CrossedRecords, type Design } from './design.ts';
import { predictEffects, residualsOf } from './effects.ts';
import { assembleFit, type CrossedFit, type LevelCounts } from './fit.ts';
import { searchCriterion, type Found } from './search.ts';
import { designSums } from './sums.ts';
import {
  binBySize,
  designSizes,
  phiFromResiduals,
  varianceWeights,
  type SizeBins
} from './variance-function.ts';

export interface RobustOptions extends SearchControl, LevelCounts {
  /** Standardised residuals beyond this count less in proportion (Huber). */
  readonly clip?: number;
  /** Beyond this they do not count. */
  readonly cut?: number;
  /** Size of each record, where error variance = sigma^2 (1 + phi / size^2). */
  readonly size?: ArrayLike<number>;
  /** Known phi; estimated from the residuals when only sizes are given. */
  readonly phi?: number;
}

export interface RobustFit extends CrossedFit {
  /** 0 without sizes. */
  readonly phi: number;
  /** Robust standard deviation of the residuals at weight 1, over all records. */
  readonly scale: number;
  /** By record of the input: value less mean and effects; NaN where not usable. */
  readonly residual: Float64Array;
  /** Weight it ended with, 0 to 1 over its own precision; 0 = dropped, NaN = not usable. */
  readonly robustWeight: Float64Array;
  /** Relative precision by its size, 1 without sizes; NaN = not usable. */
  readonly precisionWeight: Float64Array;
  readonly droppedA: Int32Array;
  readonly droppedB: Int32Array;
  readonly dropped: number;
  readonly passes: number;
  /** False when weights still moved at the last pass. */
  readonly settled: boolean;
}

const MOST_PASSES = 50;
const SETTLED = 1e-6;
// Phi and weights chase each other only while phi is rough.
const PHI_PASSES = 3;

/** What the passes carry along. */
interface State {
  phi: number;
  precision: Float64Array;
  robust: Float64Array;
  residuals: Float64Array;
  scale: number;
  moved: number;
}

/** Huber weight within the cut, 0 beyond; updates the state and how far weights moved. */
function reweigh(state: State, clip: number, cut: number): void {
  const { residuals, precision, robust } = state;
  const standardised = residuals.map((r, k) => Math.abs(r) * Math.sqrt(precision[k] as number));
  state.scale = medianAbsolute(standardised);
  state.moved = 0;
  for (let k = 0; k < robust.length; k += 1) {
    const a = (standardised[k] as number) / state.scale;
    const weight = a > cut ? 0 : a > clip ? clip / a : 1;
    const move = Math.abs(weight - (robust[k] as number));
    if (move > state.moved) state.moved = move;
    robust[k] = weight;
  }
}

function spread(design: Design, values: Float64Array, length: number): Float64Array {
  const full = new Float64Array(length).fill(NaN);
  design.record.forEach((record, k) => (full[record] = values[k] as number));
  return full;
}

function countDropped(codes: ArrayLike<number>, weight: Float64Array, levels: number): Int32Array {
  const dropped = new Int32Array(levels);
  weight.forEach((w, k) => {
    const code = codes[k] ?? -1;
    if (w === 0) dropped[code] = (dropped[code] as number) + 1;
  });
  return dropped;
}

/** One fit with the weights of the state, from where the last one ended. */
function pass(
  design: Design,
  state: State,
  last: Found | undefined,
  polish: boolean,
  options: RobustOptions
): Estimate<Found> {
  const weights = state.precision.map((w, k) => w * (state.robust[k] as number));
  const start = last === undefined ? {} : startFrom(last);
  return searchCriterion(design, designSums(design, weights), { ...options, ...start, polish });
}

function startFrom({ criterion }: Found): { start: readonly [number, number] } {
  return { start: [criterion.smallScale, criterion.largeScale] };
}

function updatePhi(
  design: Design,
  state: State,
  sizes: Float64Array,
  bins: SizeBins | undefined,
  phi?: number
): void {
  state.phi = phi ?? (bins === undefined ? 0 : phiFromResiduals(bins, state.residuals));
  state.precision = varianceWeights(sizes, state.phi).map((w, k) => w * (design.weights[k] as number));
}

/**
 * Crossed random effects that gross errors cannot pull: residuals beyond `clip` (2) robust standard deviations count
 * less, beyond `cut` (4) not at all, repeated until weights rest. The scale is 1.4826 median |residual| over all
 * records, dropped ones too. A level all of whose records are dropped has effect 0 and counts as not separable.
 */
export function fitCrossedRobust(records: CrossedRecords, options: RobustOptions = {}): Estimate<RobustFit> {
  const { clip = 2, cut = 4 } = options;
  const design = buildDesign(records);
  const n = design.record.length;
  const sizes = options.size === undefined ? undefined : designSizes(design, options.size);
  const bins = sizes === undefined || options.phi !== undefined || n < 100 ? undefined : binBySize(sizes);
  const ones = new Float64Array(n).fill(1);
  const state: State = {
    phi: 0,
    precision: design.weights,
    robust: ones,
    residuals: ones,
    scale: NaN,
    moved: NaN
  };
  if (sizes !== undefined && options.phi !== undefined)
    updatePhi(design, state, sizes, undefined, options.phi);
  let found: Found | undefined;
  let passes = 0;
  for (; passes < MOST_PASSES; passes += 1) {
    const polish = state.moved < 1e-2;
    const next = pass(design, state, found, polish, options);
    if (!next.estimable) return next;
    found = next;
    state.residuals = residualsOf(next.criterion, predictEffects(next.criterion));
    if (sizes !== undefined && bins !== undefined && passes < PHI_PASSES)
      updatePhi(design, state, sizes, bins);
    reweigh(state, clip, cut);
    if (!(state.scale > 0)) return notEstimable('no-variation', n);
    if (polish && state.moved < SETTLED) break;
  }
  if (found === undefined) return notEstimable('no-variation', n);
  return finish(
    records,
    design,
    state,
    found,
    { passes: passes + 1, settled: state.moved < SETTLED },
    options
  );
}

function finish(
  records: CrossedRecords,
  design: Design,
  state: State,
  found: Found,
  course: { passes: number; settled: boolean },
  options: RobustOptions
): Estimate<RobustFit> {
  const length = records.y.length;
  const robustWeight = spread(design, state.robust, length);
  const fit = assembleFit(found.criterion, found.value, state.robust, options);
  return {
    estimable: true,
    ...fit,
    ...course,
    phi: state.phi,
    scale: state.scale,
    residual: spread(design, state.residuals, length),
    robustWeight,
    precisionWeight: spread(design, state.precision, length),
    droppedA: countDropped(records.a, robustWeight, fit.a.records.length),
    droppedB: countDropped(records.b, robustWeight, fit.b.records.length),
    dropped: state.robust.reduce((count, w) => (w === 0 ? count + 1 : count), 0)
  };
}
