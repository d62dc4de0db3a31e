/**
 * Why there is no answer: too few values; values that do not vary; no exposure to divide by; nothing that tells two
 * things apart; the caller asked to stop.
 */
export type Shortfall = 'too-few' | 'no-variation' | 'no-exposure' | 'not-separable' | 'stopped';

export interface NotEstimable {
  readonly estimable: false;
  readonly reason: Shortfall;
  /** How many of the needed things there are. */
  readonly have: number;
  /** How many are needed; equal to `have` where number is not what is missing. */
  readonly need: number;
}

/** An answer, or the reason why there is none. */
export type Estimate<T> = (T & { readonly estimable: true }) | NotEstimable;

export function tooFew(have: number, need: number): NotEstimable {
  return { estimable: false, reason: 'too-few', have, need };
}

export function notEstimable(reason: Shortfall, have: number): NotEstimable {
  return { estimable: false, reason, have, need: have };
}
