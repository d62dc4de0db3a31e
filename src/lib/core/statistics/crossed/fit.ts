import { runSteps, stretches, type Steps } from '../steps.ts';
import type { SearchControl } from '../minimise/nelder-mead.ts';
import type { Estimate } from '../estimable.ts';
import { connectedComponents } from './components.ts';
import type { Criterion } from './criterion.ts';
import { buildDesign, type CrossedRecords } from './design.ts';
import { predictEffects } from './effects.ts';
import { precisionOf, type LevelPrecision } from './precision.ts';
import { searchCriterion } from './search.ts';
import { designSums } from './sums.ts';

/** Below this many levels the spread of a factor is no estimate worth quoting. */
export const FEWEST_LEVELS = 5;
// Cannot tell the two factors apart: errors as opposed as this, or this little of the spread resolved.
const OPPOSED = -0.5;
const UNRESOLVED = 0.5;

/** One factor of a fit; all arrays by level code of the input, NaN for a code without a usable record. */
export interface FittedFactor {
  /** Standard deviation of the true effects; 0 is a valid answer: no differences seen. */
  readonly sd: number;
  /** Levels with records that counted. */
  readonly levels: number;
  /** Fewer than five levels: quote effects, not their spread. */
  readonly fewLevels: boolean;
  /** Records that counted. */
  readonly records: Int32Array;
  /** Best linear unbiased prediction, 0 = average; 0 too where no record of the level counted. */
  readonly effect: Float64Array;
  /** Standard error of prediction, the error of the mean included. */
  readonly standardError: Float64Array;
  /** The same with the mean taken as known. */
  readonly conditionalSd: Float64Array;
  /** Effect less the mean effect of all levels: the figure to print, with its own standard error. */
  readonly contrast: Float64Array;
  readonly contrastError: Float64Array;
  /** Share of the spread of true effects that the data resolve for this level, at most 1. */
  readonly reliability: Float64Array;
  /** Correlation of the errors of the effect and of the mean effect of the other factor's levels it met. */
  readonly errorCorrelation: Float64Array;
  /** 1 where the data can tell this level from the levels it met, 0 where they cannot. */
  readonly separable: Uint8Array;
  /** Connected group; -1 without records. Groups compare only by the assumption of one population. */
  readonly component: Int32Array;
}

export interface CrossedFit {
  /** -2 log restricted likelihood. */
  readonly criterion: number;
  /** Level common to all; any bias all levels share is in here and belongs to neither factor. */
  readonly mean: number;
  readonly meanError: number;
  /** Residual standard deviation at weight 1. */
  readonly sigma: number;
  /** Records that counted. */
  readonly n: number;
  readonly components: number;
  readonly a: FittedFactor;
  readonly b: FittedFactor;
}

interface FactorParts {
  readonly sd: number;
  readonly levels: Int32Array;
  readonly effect: Float64Array;
  readonly precision: LevelPrecision;
  readonly component: Int32Array;
  readonly records: Int32Array;
}

function meanOfCounted(effect: Float64Array, records: Int32Array): number {
  let [sum, count] = [0, 0];
  effect.forEach((value, i) => {
    if ((records[i] ?? 0) === 0) return;
    sum += value;
    count += 1;
  });
  return sum / count;
}

function factorOf(parts: FactorParts, codes: number): FittedFactor {
  const { sd, levels, effect, precision, records } = parts;
  const counted = records.filter((count) => count > 0).length;
  const centre = meanOfCounted(effect, records);
  const contrastError = precision.contrastVariance.map((variance) => Math.sqrt(Math.max(0, variance)));
  const reliability = contrastError.map((error) => (sd > 0 ? 1 - (error / sd) ** 2 : 0));
  const place = (values: Float64Array): Float64Array => {
    const full = new Float64Array(codes).fill(NaN);
    levels.forEach((code, i) => (full[code] = values[i] ?? NaN));
    return full;
  };
  const separable = new Uint8Array(codes);
  const component = new Int32Array(codes).fill(-1);
  const byCode = new Int32Array(codes);
  levels.forEach((code, i) => {
    const correlation = precision.errorCorrelation[i] ?? NaN;
    const resolved = correlation >= OPPOSED && (reliability[i] ?? NaN) >= UNRESOLVED;
    separable[code] = resolved && (records[i] ?? 0) > 0 ? 1 : 0;
    component[code] = parts.component[i] ?? -1;
    byCode[code] = records[i] ?? 0;
  });
  return {
    sd,
    levels: counted,
    fewLevels: counted < FEWEST_LEVELS,
    records: byCode,
    effect: place(effect),
    standardError: place(precision.variance.map(Math.sqrt)),
    conditionalSd: place(precision.conditionalVariance.map(Math.sqrt)),
    contrast: place(effect.map((value) => value - centre)),
    contrastError: place(contrastError),
    reliability: place(reliability),
    errorCorrelation: place(precision.errorCorrelation),
    separable,
    component
  };
}

function* countRecords(codes: Int32Array, weights: Float64Array, levels: number): Steps<Int32Array> {
  const counts = new Int32Array(levels);
  yield* stretches(codes.length, (from, to) => {
    for (let k = from; k < to; k += 1) {
      const code = codes[k] as number;
      if ((weights[k] as number) > 0) counts[code] = (counts[code] as number) + 1;
    }
  });
  return counts;
}

export interface LevelCounts {
  /** Level codes of each factor, used or not; as many as occur when left out. */
  readonly levelsA?: number;
  readonly levelsB?: number;
}

/** Reads the whole answer off a criterion that stands at its minimum. */
export function* assembleFit(
  criterion: Criterion,
  value: number,
  weights: Float64Array,
  counts: LevelCounts
): Steps<CrossedFit> {
  const { design, sums } = criterion;
  const sigma = Math.sqrt(criterion.variance);
  const effects = predictEffects(criterion);
  const precision = yield* precisionOf(criterion);
  const components = connectedComponents(design, sums);
  const small: FactorParts = {
    sd: criterion.smallScale * sigma,
    levels: design.smallLevels,
    effect: effects.small,
    precision: precision.small,
    component: components.small,
    records: yield* countRecords(design.small, weights, design.smallLevels.length)
  };
  const large: FactorParts = {
    sd: criterion.largeScale * sigma,
    levels: design.largeLevels,
    effect: effects.large,
    precision: precision.large,
    component: components.large,
    records: yield* countRecords(design.large, weights, design.largeLevels.length)
  };
  const [a, b] = design.swapped ? [large, small] : [small, large];
  const codes = (parts: FactorParts, wanted = 0): number =>
    Math.max(wanted, (parts.levels[parts.levels.length - 1] ?? -1) + 1);
  return {
    criterion: value,
    mean: effects.mean,
    meanError: Math.sqrt(precision.meanVariance),
    sigma,
    n: sums.n,
    components: components.count,
    a: factorOf(a, codes(a, counts.levelsA)),
    b: factorOf(b, codes(b, counts.levelsB))
  };
}

export interface FitOptions extends SearchControl, LevelCounts {}

/**
 * Crossed random effects by restricted maximum likelihood: y = mean + effect of its a + effect of its b + error, with
 * error variance sigma^2 / weight (Patterson & Thompson 1971, Biometrika 58:545; Henderson's equations). Time grows
 * with the cube of the smaller factor's levels; call it off the main thread.
 */
export function fitCrossed(records: CrossedRecords, options: FitOptions = {}): Estimate<CrossedFit> {
  return runSteps(fitCrossedSteps(records, options));
}

function* fitCrossedSteps(records: CrossedRecords, options: FitOptions): Steps<Estimate<CrossedFit>> {
  const design = yield* buildDesign(records);
  const found = yield* searchCriterion(design, yield* designSums(design, design.weights), options);
  if (!found.estimable) return found;
  return { estimable: true, ...(yield* assembleFit(found.criterion, found.value, design.weights, options)) };
}
