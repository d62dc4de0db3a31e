import { fsum } from 'd3';

/** The exactly rounded sum of the numbers that are not NaN (Shewchuk's expansion, by d3). */
export function exactSum(values: Iterable<number>): number {
  return fsum(values);
}

/**
 * The sum of the numbers that are not NaN, with Neumaier's correction (1974, ZAMM 54:39): error independent of
 * the length, several times faster than an exact sum.
 */
export function compensatedSum(values: ArrayLike<number>): number {
  let sum = 0;
  let lost = 0;
  for (let i = 0; i < values.length; i += 1) {
    const value = values[i] ?? NaN;
    if (Number.isNaN(value)) continue;
    const next = sum + value;
    lost += Math.abs(sum) >= Math.abs(value) ? sum - next + value : value - next + sum;
    sum = next;
  }
  // An infinite value leaves NaN in the correction.
  return Number.isFinite(sum) ? sum + lost : sum;
}
