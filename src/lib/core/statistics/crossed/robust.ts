import { filled, runSteps, stretches, type Steps } from '../steps.ts';
import { notEstimable, type Estimate } from '../estimable.ts';
import type { SearchControl } from '../minimise/nelder-mead.ts';
import { medianAbsolute } from './median-absolute.ts';
import { buildDesign, type CrossedRecords, type Design } from './design.ts';
import { predictEffects, residualsOf } from './effects.ts';
import { assembleFit, type CrossedFit, type LevelCounts } from './fit.ts';
import { holdScales, searchCriterion, type Found } from './search.ts';
import { designSums } from './sums.ts';
import { binBySize, designSizes, phiFromResiduals, varianceWeights } from './variance-function.ts';

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

const MOST_PASSES = 100;
const SETTLED = 1e-6;
// Weights that still move this much need no fine search of the scales.
const ROUGH = 1e-3;
// Phi is held once it moves less than this, so that it and the weights do not chase each other.
const PHI_SETTLED = 0.01;
const FEWEST_FOR_PHI = 100;

/** What the passes carry along. */
interface State {
  phi: number;
  precision: Float64Array;
  robust: Float64Array;
  residuals: Float64Array;
  scale: number;
  /** Most that a weight moved in the last pass. */
  moved: number;
  /** Relative change of phi when it was last estimated. */
  phiMoved: number;
  /** The next pass holds the scales. */
  held: boolean;
}

/** Huber weight within the cut, 0 beyond; updates the state and how far weights moved. */
function* reweigh(state: State, clip: number, cut: number): Steps<void> {
  const { residuals, precision, robust } = state;
  const standardised = yield* filled(
    new Float64Array(residuals.length),
    (k) => Math.abs(residuals[k] as number) * Math.sqrt(precision[k] as number)
  );
  const scale = yield* medianAbsolute(standardised);
  state.scale = scale;
  state.moved = 0;
  yield* stretches(robust.length, (from, to) => {
    let { moved } = state;
    for (let k = from; k < to; k += 1) {
      const a = (standardised[k] as number) / scale;
      const weight = a > cut ? 0 : a > clip ? clip / a : 1;
      const move = Math.abs(weight - (robust[k] as number));
      if (move > moved) moved = move;
      robust[k] = weight;
    }
    state.moved = moved;
  });
}

function* spread(design: Design, values: Float64Array, length: number): Steps<Float64Array> {
  const full = new Float64Array(length).fill(NaN);
  const { record } = design;
  yield* stretches(record.length, (from, to) => {
    for (let k = from; k < to; k += 1) full[record[k] as number] = values[k] as number;
  });
  return full;
}

function* countDropped(codes: ArrayLike<number>, weight: Float64Array, levels: number): Steps<Int32Array> {
  const dropped = new Int32Array(levels);
  yield* stretches(weight.length, (from, to) => {
    for (let k = from; k < to; k += 1) {
      const code = codes[k] ?? -1;
      if (weight[k] === 0) dropped[code] = (dropped[code] as number) + 1;
    }
  });
  return dropped;
}

/** Effects for the weights of the state, with the scales searched again or held where the last pass found them. */
function* pass(
  design: Design,
  state: State,
  last: Found | undefined,
  polish: boolean,
  options: RobustOptions
): Steps<Estimate<Found>> {
  const { precision, robust } = state;
  const weights = yield* filled(
    new Float64Array(precision.length),
    (k) => (precision[k] as number) * (robust[k] as number)
  );
  const sums = yield* designSums(design, weights);
  if (last === undefined) return yield* searchCriterion(design, sums, { ...options, polish });
  const { smallScale, largeScale, variance } = last.criterion;
  if (state.held) return yield* holdScales(design, sums, smallScale, largeScale, last.curvature);
  // First weights can change sigma much, to which the scales are relative: start from the same absolute spread.
  const change = polish ? 1 : Math.sqrt(variance) / state.scale;
  const start: [number, number] = [smallScale * change, largeScale * change];
  const known = polish ? last.curvature : undefined;
  return yield* searchCriterion(design, sums, { ...options, polish, start, known });
}

function* usePhi(design: Design, state: State, sizes: Float64Array, phi: number): Steps<void> {
  state.phiMoved = phi === state.phi ? 0 : Math.abs(phi - state.phi) / Math.max(phi, state.phi);
  state.phi = phi;
  const own = yield* varianceWeights(sizes, phi);
  state.precision = yield* filled(own, (k) => (own[k] as number) * (design.weights[k] as number));
}

/** Starting values: every record counts, by its own weight and by a phi that is known. */
function* startState(design: Design, sizes: Float64Array | undefined, phi: number | undefined): Steps<State> {
  const ones = new Float64Array(design.record.length).fill(1);
  const state: State = {
    phi: 0,
    phiMoved: Infinity,
    precision: design.weights,
    robust: ones,
    residuals: ones,
    scale: NaN,
    moved: Infinity,
    held: false
  };
  if (sizes !== undefined && phi !== undefined) yield* usePhi(design, state, sizes, phi);
  return state;
}

/**
 * Crossed random effects that gross errors cannot pull: residuals beyond `clip` (2) robust standard deviations count
 * less, beyond `cut` (4) not at all, repeated until weights rest. The scale is 1.4826 median |residual| over all
 * records, dropped ones too. A level all of whose records are dropped has effect 0 and counts as not separable.
 */
export function fitCrossedRobust(records: CrossedRecords, options: RobustOptions = {}): Estimate<RobustFit> {
  return runSteps(fitCrossedRobustSteps(records, options));
}

/** The same in steps. */
export function* fitCrossedRobustSteps(
  records: CrossedRecords,
  options: RobustOptions = {}
): Steps<Estimate<RobustFit>> {
  const { clip = 2, cut = 4 } = options;
  const design = yield* buildDesign(records);
  const n = design.record.length;
  const sizes = options.size === undefined ? undefined : yield* designSizes(design, options.size);
  const state = yield* startState(design, sizes, options.phi);
  const searchesPhi = options.phi === undefined && n >= FEWEST_FOR_PHI;
  const bins = sizes !== undefined && searchesPhi ? yield* binBySize(sizes) : undefined;
  let found: Found | undefined;
  let refits = 0;
  let evaluations = 0;
  const counted: RobustOptions = {
    ...options,
    onProgress: () => {
      evaluations += 1;
      options.onProgress?.(evaluations);
    }
  };
  for (let passes = 1; passes <= MOST_PASSES; passes += 1) {
    if (options.shouldStop?.() === true) return notEstimable('stopped', n);
    const polish = state.moved < ROUGH;
    const next = yield* pass(design, state, found, polish, counted);
    if (!next.estimable) return next;
    found = next;
    state.residuals = yield* residualsOf(found.criterion, predictEffects(found.criterion));
    if (sizes !== undefined && bins !== undefined && !(state.phiMoved < PHI_SETTLED)) {
      yield* usePhi(design, state, sizes, yield* phiFromResiduals(bins, state.residuals));
    }
    yield* reweigh(state, clip, cut);
    if (!(state.scale > 0)) return notEstimable('no-variation', n);
    const settled = !state.held && polish && state.moved < SETTLED;
    if (settled || passes === MOST_PASSES) {
      return yield* finish(records, design, state, found, { passes, settled }, options);
    }
    // A search of the scales costs ten passes that hold them: search when the weights have come to rest.
    if (!state.held) refits += 1;
    state.held = refits > 1 && state.moved >= (refits > 2 ? SETTLED : ROUGH);
  }
  return notEstimable('no-variation', n);
}

function* finish(
  records: CrossedRecords,
  design: Design,
  state: State,
  found: Found,
  course: { passes: number; settled: boolean },
  options: RobustOptions
): Steps<Estimate<RobustFit>> {
  const length = records.y.length;
  const robustWeight = yield* spread(design, state.robust, length);
  const fit = yield* assembleFit(found.criterion, found.value, state.robust, options);
  return {
    estimable: true,
    ...fit,
    ...course,
    phi: state.phi,
    scale: state.scale,
    residual: yield* spread(design, state.residuals, length),
    robustWeight,
    precisionWeight: yield* spread(design, state.precision, length),
    droppedA: yield* countDropped(records.a, robustWeight, fit.a.records.length),
    droppedB: yield* countDropped(records.b, robustWeight, fit.b.records.length),
    dropped: state.robust.reduce((count, w) => (w === 0 ? count + 1 : count), 0)
  };
}
