import { moments } from './moments.ts';
import { tooFew, type Estimate } from './estimable.ts';

export interface Shrunken {
  readonly mean: number;
  /** The share of its distance from the mean that a unit keeps: 0 = all differences look like chance. */
  readonly factor: number;
  /** NaN where the value is NaN. */
  readonly values: Float64Array;
}

/**
 * Equal-variance shrinkage to the mean, positive part (James & Stein; Efron & Morris 1975, JASA 70:311): what to
 * expect of each unit next time, given what it showed this time. Needs at least four values.
 */
export function jamesStein(values: ArrayLike<number>, variance: number): Estimate<Shrunken> {
  const { n, mean, variance: spread } = moments(values);
  if (n < 4) return tooFew(n, 4);
  const squares = spread * (n - 1);
  const factor = squares > 0 ? Math.max(0, 1 - ((n - 3) * variance) / squares) : 0;
  const shrunken = Float64Array.from(values, (v) => mean + factor * (v - mean));
  return { estimable: true, mean, factor, values: shrunken };
}
