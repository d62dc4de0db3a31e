import { runSteps, type Steps } from '../steps.ts';
import { differenceNewtonSteps, type Curvature } from './difference-newton.ts';
import {
  inOneStep,
  nelderMeadSteps,
  type Minimum,
  type SearchControl,
  type SteppedObjective
} from './nelder-mead.ts';

export interface ScalesOptions extends SearchControl {
  /** Which parameters may move; the others stay where they start. */
  readonly free: readonly boolean[];
  /** False is quicker and good to about 1e-4. */
  readonly polish?: boolean;
  /** Curvature in the logarithms of the free parameters, from the minimum of nearly the same surface. */
  readonly known?: Curvature | undefined;
}

export interface ScalesMinimum extends Minimum {
  /** Curvature for a next search, where the minimum is inside. */
  readonly curvature?: Curvature | undefined;
}

// Below the first a scale may as well be 0; above the second nothing is left for the noise.
const NEAR_ZERO = 2e-3;
const HUGE = 1e4;

type Objective = (point: readonly number[]) => number;

/** The parameters that may move, as logarithms, and back into place. */
function freeCoordinates(start: readonly number[], free: readonly boolean[]) {
  const axes = start.map((_, i) => i).filter((i) => free[i] === true);
  const fill = (values: readonly number[]): number[] =>
    start.map((x, i) => (axes.includes(i) ? (values[axes.indexOf(i)] ?? NaN) : x));
  return { axes, fill, values: axes.map((i) => start[i] ?? NaN) };
}

/** With one parameter at 0 the rest is searched again; good only if a little of it makes things worse. */
function* atZero(
  f: SteppedObjective,
  start: readonly number[],
  axis: number,
  options: ScalesOptions
): Steps<Minimum | undefined> {
  const without = start.map((x, i) => (i === axis ? 0 : x));
  const free = options.free.map((may, i) => may && i !== axis);
  const found = yield* minimiseScalesSteps(f, without, { ...options, free, known: undefined });
  const withSome = found.point.map((x, i) => (i === axis ? 5 * NEAR_ZERO : x));
  return (yield* f(withSome)) >= found.value ? found : undefined;
}

/** Simplex search from where the quick method gave up, then every small parameter tried at 0. */
function* carefully(f: SteppedObjective, start: readonly number[], options: ScalesOptions): Steps<Minimum> {
  const { axes, fill, values } = freeCoordinates(start, options.free);
  const search = { step: 0.1, tolerance: 1e-9, mostEvaluations: 400 };
  const control = { ...options, ...search };
  const raw = yield* nelderMeadSteps((point) => f(fill(point.map(Math.abs))), values, control);
  let best: Minimum = { ...raw, point: fill(raw.point.map(Math.abs)) };
  for (const axis of axes) {
    if ((best.point[axis] ?? NaN) > 10 * NEAR_ZERO) continue;
    const zero = yield* minimiseScalesSteps(
      f,
      best.point.map((x, i) => (i === axis ? 0 : x)),
      { ...options, free: options.free.map((may, i) => may && i !== axis), known: undefined }
    );
    if (zero.value <= best.value + 1e-9 * Math.abs(best.value)) best = zero;
  }
  return best;
}

/**
 * Minimum over scale parameters that are 0 or more, where 0 is a valid answer: Newton on logarithms, with the
 * boundary tried where a parameter runs to it, and a simplex search where Newton gives up.
 */
export function minimiseScales(
  f: Objective,
  start: readonly number[],
  options: ScalesOptions
): ScalesMinimum {
  return runSteps(minimiseScalesSteps(inOneStep(f), start, options));
}

/** The same in steps. */
export function* minimiseScalesSteps(
  f: SteppedObjective,
  start: readonly number[],
  options: ScalesOptions
): Steps<ScalesMinimum> {
  const { axes, fill, values } = freeCoordinates(start, options.free);
  if (axes.length === 0) return { point: start, value: yield* f(start), evaluations: 1, converged: true };
  const logs = values.map((x) => Math.log(Math.min(Math.max(x, 2 * NEAR_ZERO), HUGE / 2)));
  const outcome = yield* differenceNewtonSteps((point) => f(fill(point.map(Math.exp))), logs, {
    ...options,
    spacing: 0.02,
    lowest: Math.log(NEAR_ZERO),
    highest: Math.log(HUGE),
    polish: options.polish !== false
  });
  if (outcome.kind === 'minimum') {
    const point = fill(outcome.minimum.point.map(Math.exp));
    return { ...outcome.minimum, point, curvature: outcome.curvature };
  }
  const at = fill(outcome.at.map(Math.exp));
  if (outcome.kind === 'left' && outcome.side === 'low') {
    const zero = yield* atZero(f, at, axes[outcome.axis] ?? NaN, options);
    if (zero !== undefined) return zero;
  }
  return yield* carefully(f, at, options);
}
