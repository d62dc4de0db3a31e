import type { NotEstimable } from '#lib/core/statistics/index.ts';
import type { Fields } from './read-case.ts';

/** A method of the reference: from the input of a case to values under the names of its expected ones. */
export type Method = (input: Fields) => Fields;

/** The answer itself, or an error that says why there is none. */
export function must<T extends { readonly estimable: true }>(estimate: T | NotEstimable): T {
  if (!estimate.estimable) throw new Error(`not estimable: ${estimate.reason}, have ${estimate.have}`);
  return estimate;
}
