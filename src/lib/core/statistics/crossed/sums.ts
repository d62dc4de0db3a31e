import { stretches, type Steps } from '../steps.ts';
import type { Design } from './design.ts';

/** Everything the criterion needs of the records, for one set of weights. A weight of 0 leaves its record out. */
export interface DesignSums {
  /** Records with a weight. */
  readonly n: number;
  readonly cellWeight: Float64Array;
  readonly smallWeight: Float64Array;
  readonly smallSum: Float64Array;
  readonly largeWeight: Float64Array;
  readonly largeSum: Float64Array;
  readonly weight: number;
  readonly sum: number;
  readonly squares: number;
  readonly logWeights: number;
  /** The weighted mean of the values; all sums are of values less this, against cancellation. */
  readonly centre: number;
}

function* weightedCentre(y: Float64Array, weights: Float64Array): Steps<number> {
  let sum = 0;
  let total = 0;
  yield* stretches(y.length, (from, to) => {
    let [sumHere, totalHere] = [sum, total];
    for (let k = from; k < to; k += 1) {
      sumHere += (weights[k] as number) * (y[k] as number);
      totalHere += weights[k] as number;
    }
    [sum, total] = [sumHere, totalHere];
  });
  return sum / total;
}

export function* designSums(design: Design, weights: Float64Array): Steps<DesignSums> {
  const { small, large, cell, y } = design;
  const centre = yield* weightedCentre(y, weights);
  const cellWeight = new Float64Array(design.cellSmall.length);
  const smallWeight = new Float64Array(design.smallLevels.length);
  const smallSum = new Float64Array(design.smallLevels.length);
  const largeWeight = new Float64Array(design.largeLevels.length);
  const largeSum = new Float64Array(design.largeLevels.length);
  let [count, weightOfAll, sumOfAll, squaresOfAll, logOfAll] = [0, 0, 0, 0, 0];
  yield* stretches(y.length, (from, to) => {
    // Locals in the loop: what a closure shares is read and written in memory each time.
    let [n, weight, sum, squares, logWeights] = [count, weightOfAll, sumOfAll, squaresOfAll, logOfAll];
    for (let k = from; k < to; k += 1) {
      const w = weights[k] as number;
      if (w === 0) continue;
      const deviation = (y[k] as number) - centre;
      const weighted = w * deviation;
      const i = small[k] as number;
      const b = large[k] as number;
      const c = cell[k] as number;
      cellWeight[c] = (cellWeight[c] as number) + w;
      smallWeight[i] = (smallWeight[i] as number) + w;
      smallSum[i] = (smallSum[i] as number) + weighted;
      largeWeight[b] = (largeWeight[b] as number) + w;
      largeSum[b] = (largeSum[b] as number) + weighted;
      n += 1;
      weight += w;
      sum += weighted;
      squares += weighted * deviation;
      if (w !== 1) logWeights += Math.log(w);
    }
    [count, weightOfAll, sumOfAll, squaresOfAll, logOfAll] = [n, weight, sum, squares, logWeights];
  });
  return {
    n: count,
    cellWeight,
    smallWeight,
    smallSum,
    largeWeight,
    largeSum,
    weight: weightOfAll,
    sum: sumOfAll,
    squares: squaresOfAll,
    logWeights: logOfAll,
    centre
  };
}
