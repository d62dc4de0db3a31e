import { notEstimable, tooFew, type Estimate } from './estimable.ts';

export interface WithinSlope {
  readonly slope: number;
  /** Allows for values of one cluster that err together. */
  readonly standardError: number;
  /** Pairs that told something: those of groups with two and more. */
  readonly n: number;
  readonly groups: number;
  readonly clusters: number;
}

/** Fewer clusters than this give no standard error worth its name. */
const FEWEST_CLUSTERS = 10;

/** Means of x and y per group, and how many pairs it has. */
function groupMeans(x: Float64Array, y: Float64Array, group: Int32Array) {
  const count = group.reduce((most, each) => Math.max(most, each + 1), 0);
  const n = new Float64Array(count);
  const meanX = new Float64Array(count);
  const meanY = new Float64Array(count);
  for (let i = 0; i < x.length; i++) {
    const g = group[i] ?? 0;
    n[g] = (n[g] ?? 0) + 1;
    meanX[g] = (meanX[g] ?? 0) + ((x[i] ?? NaN) - (meanX[g] ?? 0)) / (n[g] ?? 1);
    meanY[g] = (meanY[g] ?? 0) + ((y[i] ?? NaN) - (meanY[g] ?? 0)) / (n[g] ?? 1);
  }
  return { n, meanX, meanY };
}

/**
 * One least-squares slope of y on x inside groups that each have a level of their own, with the standard error of
 * values that hang together in clusters (Liang & Zeger 1986, Biometrika 73:13; times G / (G - 1)). Groups and
 * clusters are codes from 0; no value may be missing.
 */
export function withinSlope(
  x: Float64Array,
  y: Float64Array,
  group: Int32Array,
  cluster: Int32Array
): Estimate<WithinSlope> {
  const means = groupMeans(x, y, group);
  const isUsed = (i: number) => (means.n[group[i] ?? 0] ?? 0) > 1;
  let xx = 0;
  let xy = 0;
  let n = 0;
  for (let i = 0; i < x.length; i++) {
    if (!isUsed(i)) continue;
    const g = group[i] ?? 0;
    const dx = (x[i] ?? NaN) - (means.meanX[g] ?? NaN);
    xx += dx * dx;
    xy += dx * ((y[i] ?? NaN) - (means.meanY[g] ?? NaN));
    n++;
  }
  if (!(xx > 0)) return notEstimable('no-variation', n);
  const slope = xy / xx;
  const scores = new Float64Array(cluster.reduce((most, each) => Math.max(most, each + 1), 0));
  const isMet = new Uint8Array(scores.length);
  for (let i = 0; i < x.length; i++) {
    if (!isUsed(i)) continue;
    const g = group[i] ?? 0;
    const dx = (x[i] ?? NaN) - (means.meanX[g] ?? NaN);
    const rest = (y[i] ?? NaN) - (means.meanY[g] ?? NaN) - slope * dx;
    const key = cluster[i] ?? 0;
    scores[key] = (scores[key] ?? 0) + dx * rest;
    isMet[key] = 1;
  }
  const clusters = isMet.reduce((sum, met) => sum + met, 0);
  if (clusters < FEWEST_CLUSTERS) return tooFew(clusters, FEWEST_CLUSTERS);
  const squares = scores.reduce((sum, score) => sum + score * score, 0);
  return {
    estimable: true,
    slope,
    standardError: Math.sqrt((squares * clusters) / (clusters - 1)) / xx,
    n,
    groups: means.n.filter((count) => count > 1).length,
    clusters
  };
}
