import { runSteps, type Steps } from '../steps.ts';
import { inOneStep, type Minimum, type SearchControl, type SteppedObjective } from './nelder-mead.ts';

export interface NewtonOptions extends SearchControl {
  /** Spacing of the differences; the end of the search uses a tenth of it. */
  readonly spacing: number;
  /** Leaving this range in any coordinate ends the search: the minimum is not inside. */
  readonly lowest: number;
  readonly highest: number;
  /** False stops at the accuracy of the wide differences, about 1e-4. */
  readonly polish: boolean;
  /** From the minimum of nearly the same surface near by: tried first, since it saves most evaluations. */
  readonly known?: Curvature | undefined;
}

export type NewtonOutcome =
  | { readonly kind: 'minimum'; readonly minimum: Minimum; readonly curvature?: Curvature }
  /** A coordinate ran out of the range: its index, and the side. */
  | {
      readonly kind: 'left';
      readonly axis: number;
      readonly side: 'low' | 'high';
      readonly at: readonly number[];
    }
  /** The surface does not curve upwards, or steps do not help: nothing is known. */
  | { readonly kind: 'failed'; readonly at: readonly number[] };

type Objective = (point: readonly number[]) => number;

/** Slope and second derivatives at a point. */
export interface Curvature {
  readonly gradient: readonly number[];
  readonly hessian: readonly (readonly number[])[];
}

/** The step -H^-1 g by elimination, or undefined unless H is positive definite. */
function newtonStep({ gradient, hessian }: Curvature): number[] | undefined {
  const rows = hessian.map((row, i) => [...row, -(gradient[i] ?? NaN)]);
  const at = (i: number, j: number): number => rows[i]?.[j] ?? NaN;
  const n = gradient.length;
  for (let k = 0; k < n; k += 1) {
    if (!(at(k, k) > 0)) return undefined;
    for (let i = k + 1; i < n; i += 1) {
      const factor = at(i, k) / at(k, k);
      rows[i] = (rows[i] ?? []).map((value, j) => value - factor * at(k, j));
    }
  }
  const step = new Array<number>(n).fill(0);
  for (let k = n - 1; k >= 0; k -= 1) {
    const known = step.reduce((sum, s, j) => (j > k ? sum + at(k, j) * s : sum), 0);
    step[k] = (at(k, n) - known) / at(k, k);
  }
  return step;
}

/** Offsets of the difference stencil: one and two axes at a time, neighbours in the last coordinate together. */
function stencil(n: number): number[][] {
  const unit = (axes: readonly number[], sign: number): number[] =>
    Array.from({ length: n }, (_, i) => (axes.includes(i) ? sign : 0));
  const offsets: number[][] = [];
  for (let i = 0; i < n; i += 1) {
    offsets.push(unit([i], 1), unit([i], -1));
    for (let j = 0; j < i; j += 1) offsets.push(unit([i, j], 1), unit([i, j], -1));
  }
  const key = (offset: readonly number[]): number => offset.reduce((sum, o, i) => sum + o * 10 ** i, 0);
  return offsets.sort((p, q) => key(p) - key(q));
}

function moved(point: readonly number[], offset: readonly number[], scale: number): number[] {
  return point.map((x, i) => x + scale * (offset[i] ?? NaN));
}

function* curvatureAt(
  f: SteppedObjective,
  point: readonly number[],
  centre: number,
  h: number
): Steps<Curvature> {
  const n = point.length;
  const values = new Map<string, number>();
  for (const offset of stencil(n)) values.set(offset.join(), yield* f(moved(point, offset, h)));
  const at = (axes: readonly number[], sign: number): number =>
    values.get(Array.from({ length: n }, (_, i) => (axes.includes(i) ? sign : 0)).join()) ?? NaN;
  const axes = point.map((_, i) => i);
  const second = (i: number): number => (at([i], 1) - 2 * centre + at([i], -1)) / (h * h);
  const mixed = (i: number, j: number): number =>
    ((at([i, j], 1) + at([i, j], -1) - 2 * centre) / (h * h) - second(i) - second(j)) / 2;
  return {
    gradient: axes.map((i) => (at([i], 1) - at([i], -1)) / (2 * h)),
    hessian: axes.map((i) => axes.map((j) => (i === j ? second(i) : mixed(i, j))))
  };
}

function* gradientAt(f: SteppedObjective, point: readonly number[], h: number): Steps<number[]> {
  const unit = (axis: number): number[] => point.map((_, i) => (i === axis ? 1 : 0));
  const gradient: number[] = [];
  for (let i = 0; i < point.length; i += 1) {
    const above = yield* f(moved(point, unit(i), h));
    const below = yield* f(moved(point, unit(i), -h));
    gradient.push((above - below) / (2 * h));
  }
  return gradient;
}

const largest = (step: readonly number[]): number => step.reduce((most, s) => Math.max(most, Math.abs(s)), 0);

const LONGEST_STEP = 1;

/** A step, shortened to the longest allowed, then halved until it goes down. */
function* goDown(
  f: SteppedObjective,
  from: readonly number[],
  value: number,
  step: readonly number[]
): Steps<{ point: number[]; value: number } | undefined> {
  let scale = Math.min(1, LONGEST_STEP / largest(step));
  for (let halving = 0; halving < 8; halving += 1) {
    const point = moved(from, step, scale);
    const next = yield* f(point);
    if (next <= value + 1e-9 * Math.abs(value)) return { point, value: next };
    scale /= 2;
  }
  return undefined;
}

/**
 * Newton's method with a gradient and curvature from central differences, for smooth objectives that cost much an
 * evaluation; seven of them a step in two variables. The last coordinate changes least often between evaluations,
 * so an objective may keep what depends on it alone.
 */
export function differenceNewton(
  objective: Objective,
  start: readonly number[],
  options: NewtonOptions
): NewtonOutcome {
  return runSteps(differenceNewtonSteps(inOneStep(objective), start, options));
}

/** The same in steps. */
export function* differenceNewtonSteps(
  objective: SteppedObjective,
  start: readonly number[],
  options: NewtonOptions
): Steps<NewtonOutcome> {
  const { spacing, lowest, highest } = options;
  let evaluations = 0;
  const f: SteppedObjective = function* (point) {
    evaluations += 1;
    const value = yield* objective(point);
    options.onProgress?.(evaluations);
    return value;
  };
  const minimum = function* (point: readonly number[], converged: boolean): Steps<Minimum> {
    return { point, value: yield* f(point), evaluations, converged };
  };
  if (options.known !== undefined) {
    const { point, left } = yield* polished(f, start, options.known, spacing / 10);
    if (left < CLOSE)
      return { kind: 'minimum', minimum: yield* minimum(point, true), curvature: options.known };
  }
  let point = [...start];
  let value = yield* f(point);
  for (let step = 0; step < 25; step += 1) {
    if (options.shouldStop?.() === true) return { kind: 'minimum', minimum: yield* minimum(point, false) };
    const curvature = yield* curvatureAt(f, point, value, spacing);
    const wanted = newtonStep(curvature);
    const next = wanted === undefined ? undefined : yield* goDown(f, point, value, wanted);
    if (wanted === undefined || next === undefined) return { kind: 'failed', at: point };
    ({ point, value } = next);
    const axis = point.findIndex((x) => x < lowest || x > highest);
    if (axis >= 0)
      return { kind: 'left', axis, side: (point[axis] ?? 0) < lowest ? 'low' : 'high', at: point };
    if (largest(wanted) > spacing / 4) continue;
    const end = options.polish ? (yield* polished(f, point, curvature, spacing / 10)).point : point;
    return { kind: 'minimum', minimum: yield* minimum(end, true), curvature };
  }
  return { kind: 'failed', at: point };
}

// A curvature is right to about a hundredth, and so is what a step leaves: after a step this short nothing is left.
const CLOSE = 1e-4;

/** A few steps with the curvature known and a finer gradient; how long the last one was. */
function* polished(
  f: SteppedObjective,
  start: readonly number[],
  curvature: Curvature,
  h: number
): Steps<{ point: number[]; left: number }> {
  let point = [...start];
  let left = Infinity;
  for (let step = 0; step < 3 && left >= CLOSE; step += 1) {
    const wanted = newtonStep({ ...curvature, gradient: yield* gradientAt(f, point, h) });
    if (wanted === undefined || largest(wanted) > 10 * h) break;
    left = largest(wanted);
    point = moved(point, wanted, 1);
  }
  return { point, left };
}
