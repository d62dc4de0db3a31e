import { tooFew, type Estimate } from '../estimable.ts';
import {
  presentSeries,
  requireSigma,
  runningSums,
  segmentMean,
  segmentSquares,
  type RunningSums
} from './series.ts';

export interface Segment {
  /** Where its first and last value stand in the series. */
  readonly from: number;
  readonly to: number;
  readonly mean: number;
  readonly n: number;
}

export interface SeveralChanges {
  readonly segments: readonly Segment[];
  /** Present values before each change. */
  readonly before: readonly number[];
  /** Sum of squares / sigma^2 over the segments + penalty x changes: the least possible. */
  readonly objective: number;
}

interface Partition {
  /** Least cost of the first j values, counting one penalty a segment. */
  readonly cost: Float64Array;
  /** Start of the last segment of that partition. */
  readonly start: Int32Array;
}

function cheapestPartition(running: RunningSums, n: number, variance: number, penalty: number): Partition {
  const cost = new Float64Array(n + 1).fill(Infinity);
  const start = new Int32Array(n + 1);
  cost[0] = 0;
  for (let to = 1; to <= n; to += 1) {
    for (let from = 0; from < to; from += 1) {
      const candidate = (cost[from] ?? NaN) + segmentSquares(running, from, to) / variance + penalty;
      if (candidate < (cost[to] ?? NaN)) [cost[to], start[to]] = [candidate, from];
    }
  }
  return { cost, start };
}

/**
 * All steps of the level at once: the partition of least penalised squares, exact by dynamic programming over all
 * partitions (the optimum that PELT finds: Killick, Fearnhead, Eckley 2012, JASA 107:1590). Quadratic in the
 * number of values. The penalty is best taken from `changePenalty`.
 */
export function severalChanges(
  series: ArrayLike<number>,
  sigma: number,
  penalty: number
): Estimate<SeveralChanges> {
  requireSigma(sigma);
  const { values, index } = presentSeries(series);
  const n = values.length;
  if (n === 0) return tooFew(0, 1);
  const running = runningSums(values);
  const { cost, start } = cheapestPartition(running, n, sigma * sigma, penalty);
  const before: number[] = [];
  for (let to = start[n] ?? 0; to > 0; to = start[to] ?? 0) before.unshift(to);
  const segments = [0, ...before].map((from, i) => {
    const to = before[i] ?? n;
    return {
      from: index[from] ?? NaN,
      to: index[to - 1] ?? NaN,
      mean: segmentMean(running, from, to),
      n: to - from
    };
  });
  return { estimable: true, segments, before, objective: (cost[n] ?? NaN) - penalty };
}
