import { runSteps, type Steps } from '../steps.ts';

export interface SearchControl {
  /** Called after each evaluation with their number so far. */
  readonly onProgress?: (evaluations: number) => void;
  /** Asked before each step; true ends the search where it is. */
  readonly shouldStop?: () => boolean;
}

export interface NelderMeadOptions extends SearchControl {
  /** Size of the first simplex along each axis. */
  readonly step: number;
  /** Ends when values and points of the simplex agree to this, relative. */
  readonly tolerance: number;
  readonly mostEvaluations: number;
}

export interface Minimum {
  readonly point: readonly number[];
  readonly value: number;
  readonly evaluations: number;
  /** False when stopped or out of evaluations. */
  readonly converged: boolean;
}

interface Vertex {
  readonly point: readonly number[];
  readonly value: number;
}

type Objective = (point: readonly number[]) => number;

/** An objective that costs so much that it is worked out in steps. */
export type SteppedObjective = (point: readonly number[]) => Steps<number>;

/** A plain objective where a stepped one is asked for. */
export function inOneStep(objective: Objective): SteppedObjective {
  return function* (point) {
    yield;
    return objective(point);
  };
}

function combine(from: readonly number[], to: readonly number[], share: number): number[] {
  return from.map((x, i) => x + share * ((to[i] ?? NaN) - x));
}

function centroidOf(vertices: readonly Vertex[]): number[] {
  const first = vertices[0]?.point ?? [];
  return first.map((_, i) => vertices.reduce((sum, v) => sum + (v.point[i] ?? NaN), 0) / vertices.length);
}

function hasSettled(best: Vertex, worst: Vertex, tolerance: number): boolean {
  const spread = best.point.map((x, i) => Math.abs(x - (worst.point[i] ?? NaN)) - tolerance * Math.abs(x));
  const flat = worst.value - best.value <= tolerance * (Math.abs(best.value) + tolerance);
  return flat && spread.every((excess) => excess <= tolerance);
}

/** The vertex that replaces the worst one, or undefined when the simplex must shrink. */
function* replacement(
  evaluate: (p: readonly number[]) => Steps<Vertex>,
  vertices: readonly Vertex[]
): Steps<Vertex | undefined> {
  const worst = vertices[vertices.length - 1];
  const second = vertices[vertices.length - 2];
  const best = vertices[0];
  if (worst === undefined || second === undefined || best === undefined) return undefined;
  const centroid = centroidOf(vertices.slice(0, -1));
  const reflected = yield* evaluate(combine(centroid, worst.point, -1));
  if (reflected.value < best.value) {
    const expanded = yield* evaluate(combine(centroid, worst.point, -2));
    return expanded.value < reflected.value ? expanded : reflected;
  }
  if (reflected.value < second.value) return reflected;
  const inside = reflected.value >= worst.value;
  const contracted = yield* evaluate(combine(centroid, worst.point, inside ? 0.5 : -0.5));
  return contracted.value < Math.min(worst.value, reflected.value) ? contracted : undefined;
}

/**
 * Downhill simplex search (Nelder & Mead 1965, Computer J 7:308) for a minimum of a few variables without
 * derivatives. An objective of NaN counts as Infinity.
 */
export function nelderMead(
  objective: Objective,
  start: readonly number[],
  options: NelderMeadOptions
): Minimum {
  return runSteps(nelderMeadSteps(inOneStep(objective), start, options));
}

/** The same in steps. */
export function* nelderMeadSteps(
  objective: SteppedObjective,
  start: readonly number[],
  options: NelderMeadOptions
): Steps<Minimum> {
  let evaluations = 0;
  const evaluate = function* (point: readonly number[]): Steps<Vertex> {
    const value = yield* objective(point);
    evaluations += 1;
    options.onProgress?.(evaluations);
    return { point, value: Number.isNaN(value) ? Infinity : value };
  };
  const corners = start.map((_, axis) => start.map((x, i) => (i === axis ? x + options.step : x)));
  const evaluateAll = function* (points: readonly (readonly number[])[]): Steps<Vertex[]> {
    const found: Vertex[] = [];
    for (const point of points) found.push(yield* evaluate(point));
    return found;
  };
  let vertices = yield* evaluateAll([start, ...corners]);
  let converged = false;
  while (evaluations < options.mostEvaluations && options.shouldStop?.() !== true) {
    vertices.sort((v, w) => v.value - w.value);
    const [best, worst] = [vertices[0], vertices[vertices.length - 1]];
    if (best === undefined || worst === undefined) break;
    converged = hasSettled(best, worst, options.tolerance);
    if (converged) break;
    const better = yield* replacement(evaluate, vertices);
    vertices =
      better === undefined
        ? [best, ...(yield* evaluateAll(vertices.slice(1).map((v) => combine(best.point, v.point, 0.5))))]
        : [...vertices.slice(0, -1), better];
  }
  vertices.sort((v, w) => v.value - w.value);
  const best = vertices[0] ?? { point: start, value: NaN };
  return { ...best, evaluations, converged };
}
