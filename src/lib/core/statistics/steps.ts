/**
 * Long work that can be laid down: it yields every few milliseconds at the most, and whoever drives it may see to
 * something else, or let it go, before the next step. The result does not hang on when it is driven.
 */
export type Steps<T> = Generator<undefined, T, undefined>;

/** Drives work to its end at once. */
export function runSteps<T>(steps: Steps<T>): T {
  let step = steps.next();
  while (step.done !== true) step = steps.next();
  return step.value;
}

/** Entries of a plain loop between two rests: a millisecond or so. */
const entriesAStretch = 1 << 14;

/** A loop over [0, count) in stretches, with a rest after each; `work` loops over the entries [from, to). */
export function* stretches(count: number, work: (from: number, to: number) => void): Steps<void> {
  for (let from = 0; from < count; from += entriesAStretch) {
    work(from, Math.min(count, from + entriesAStretch));
    yield;
  }
}

/** An array filled entry by entry in stretches. */
export function* filled<A extends Float64Array | Int32Array | Uint32Array>(
  array: A,
  valueAt: (index: number) => number
): Steps<A> {
  yield* stretches(array.length, (from, to) => {
    for (let i = from; i < to; i += 1) array[i] = valueAt(i);
  });
  return array;
}
