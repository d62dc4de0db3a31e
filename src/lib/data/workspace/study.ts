import type { Steps } from '#lib/data/questions/index.ts';

/** Whoever asked for a study: it rests where that one says, and is let go where it is wanted no more. */
export interface Course {
  /** Lets everything else that was asked for be answered first. */
  readonly rest: () => Promise<void>;
  readonly isDropped: () => boolean;
}

/** A study was let go before its end: nobody waits for it. */
export class StudyDropped extends Error {
  override readonly name = 'StudyDropped';
}

/** A study works this long at the most before it rests, unless one step of it takes longer, ms. */
const longestTurnMs = 5;

/** What came of driving a study: its answer, or word that what it rests on has changed. */
export type Driven<T> = { readonly isDone: true; readonly answer: T } | { readonly isDone: false };

/**
 * Drives a study to its end with rests in between; throws `StudyDropped` where it is let go. It ends without an answer
 * as soon as `isStale` says that it rests on what is no more.
 */
export async function drive<T>(
  steps: Steps<T>,
  course: Course,
  now: () => number,
  isStale: () => boolean
): Promise<Driven<T>> {
  for (;;) {
    await course.rest();
    if (course.isDropped()) throw new StudyDropped('study: let go');
    if (isStale()) return { isDone: false };
    const untilMs = now() + longestTurnMs;
    let step = steps.next();
    while (step.done !== true && now() < untilMs) step = steps.next();
    if (step.done === true) return { isDone: true, answer: step.value };
  }
}
