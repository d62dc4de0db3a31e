import { filled, type Steps } from '../steps.ts';
import { backSubstitute } from './cholesky.ts';
import type { Criterion } from './criterion.ts';

/** Best linear unbiased predictions at the point of the criterion, by level of the design. */
export interface Effects {
  readonly mean: number;
  readonly small: Float64Array;
  readonly large: Float64Array;
}

export function predictEffects(criterion: Criterion): Effects {
  const { size, factor, sums, design, smallScale, largeScale } = criterion;
  const levels = size - 2;
  const dataRow = (size - 1) * size;
  const solved = backSubstitute(factor, size, factor.slice(dataRow, dataRow + size - 1));
  const mean = solved[levels] ?? NaN;
  const small = solved.subarray(0, levels).map((u) => smallScale * u);
  const large = sums.largeSum.map((sum, b) => {
    let rest = sum - (sums.largeWeight[b] ?? NaN) * mean;
    for (let x = design.cellStart[b] ?? 0; x < (design.cellStart[b + 1] ?? 0); x += 1) {
      rest -= (sums.cellWeight[x] as number) * (small[design.cellSmall[x] as number] as number);
    }
    return (largeScale ** 2 * rest) / criterion.largeDivisor(b);
  });
  return { mean: mean + sums.centre, small, large };
}

/** Value less mean and both effects, for each usable record. */
export function residualsOf(criterion: Criterion, effects: Effects): Steps<Float64Array> {
  const { y, small, large } = criterion.design;
  return filled(
    new Float64Array(y.length),
    (k) =>
      (y[k] as number) -
      effects.mean -
      (effects.small[small[k] as number] as number) -
      (effects.large[large[k] as number] as number)
  );
}
