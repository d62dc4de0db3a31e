import {
  stratifiedMeanDifference,
  stratifiedRateDifference,
  type MeanStratum,
  type Stratum
} from '#lib/core/statistics/index.ts';

/** What two suppliers are compared by: the share of refuellings outside limits, or the mean discrepancy in per cent. */
export type Measure = 'rate' | 'mean';

/** Sums of one side over strata, one entry a stratum: count, sum, and squares around the stratum's own mean. */
export interface Side {
  readonly count: Float64Array;
  readonly sum: Float64Array;
  readonly squares: Float64Array;
}

/** Side a and side b over the same strata. */
export type TwoSides = readonly [Side, Side];

const createSide = (strata: number): Side => ({
  count: new Float64Array(strata),
  sum: new Float64Array(strata),
  squares: new Float64Array(strata)
});

function add(array: Float64Array, index: number, value: number): void {
  array[index] = (array[index] as number) + value;
}

/**
 * Sums values by stratum and side; a row whose side is `sideCount` or above belongs to none. Squares in a pass of their
 * own keep their digits.
 */
export function sumSides(
  strata: { readonly codes: Uint32Array; readonly count: number },
  sides: Uint8Array,
  sideCount: number,
  values: Float64Array
): Side[] {
  const found = Array.from({ length: sideCount }, () => createSide(strata.count));
  for (let i = 0; i < sides.length; i++) {
    const side = found[sides[i] as number];
    if (side === undefined) continue;
    add(side.count, strata.codes[i] as number, 1);
    add(side.sum, strata.codes[i] as number, values[i] as number);
  }
  for (let i = 0; i < sides.length; i++) {
    const side = found[sides[i] as number];
    if (side === undefined) continue;
    const stratum = strata.codes[i] as number;
    const mean = (side.sum[stratum] as number) / (side.count[stratum] as number);
    add(side.squares, stratum, ((values[i] as number) - mean) ** 2);
  }
  return found;
}

/** The same sums with strata put together: `into` names the new stratum of each. */
function mergeSide(from: Side, into: ArrayLike<number>, count: number): Side {
  const merged = createSide(count);
  for (let stratum = 0; stratum < from.count.length; stratum++) {
    add(merged.count, into[stratum] as number, from.count[stratum] as number);
    add(merged.sum, into[stratum] as number, from.sum[stratum] as number);
  }
  for (let stratum = 0; stratum < from.count.length; stratum++) {
    const n = from.count[stratum] as number;
    if (n === 0) continue;
    const to = into[stratum] as number;
    const own = (from.sum[stratum] as number) / n;
    const mean = (merged.sum[to] as number) / (merged.count[to] as number);
    add(merged.squares, to, (from.squares[stratum] as number) + n * (own - mean) ** 2);
  }
  return merged;
}

export function mergeSides([a, b]: TwoSides, into: ArrayLike<number>, count: number): TwoSides {
  return [mergeSide(a, into, count), mergeSide(b, into, count)];
}

/** Two sides compared within strata. NaN where nothing is common. */
export interface ComparedSides {
  /** Refuellings of each side in strata that both have. */
  readonly nA: number;
  readonly nB: number;
  /** The rate or mean of each, the common strata in the same proportions on both. */
  readonly valueA: number;
  readonly valueB: number;
  readonly difference: number;
  readonly lower: number;
  readonly upper: number;
  /** What the comparison is worth against others of the same records. */
  readonly weight: number;
}

const nothing: ComparedSides = {
  nA: 0,
  nB: 0,
  valueA: NaN,
  valueB: NaN,
  difference: NaN,
  lower: NaN,
  upper: NaN,
  weight: 0
};

/** The strata as counts of events. */
export function rateStrata(from: TwoSides, of: readonly number[]): Stratum[] {
  return of.map((s) => ({
    x1: from[0].sum[s] ?? 0,
    n1: from[0].count[s] ?? 0,
    x2: from[1].sum[s] ?? 0,
    n2: from[1].count[s] ?? 0
  }));
}

function meanStrata(from: TwoSides, of: readonly number[]): MeanStratum[] {
  const mean = (side: Side, s: number) => (side.sum[s] ?? 0) / (side.count[s] ?? 0);
  const variance = (side: Side, s: number) => (side.squares[s] ?? 0) / ((side.count[s] ?? 0) - 1);
  const [a, b] = from;
  return of.map((s) => ({
    n1: a.count[s] ?? 0,
    mean1: mean(a, s),
    variance1: variance(a, s),
    n2: b.count[s] ?? 0,
    mean2: mean(b, s),
    variance2: variance(b, s)
  }));
}

/** Strata with something on both sides, of those given. */
export function commonOf([a, b]: TwoSides, of: readonly number[]): number[] {
  return of.filter((s) => (a.count[s] ?? 0) > 0 && (b.count[s] ?? 0) > 0);
}

/** The sum over some strata. */
export function total(values: Float64Array, of: readonly number[]): number {
  return of.reduce((sum, s) => sum + (values[s] ?? 0), 0);
}

/** Compares the two sides over the common ones of some strata. */
export function compareSides(from: TwoSides, measure: Measure, of: readonly number[]): ComparedSides {
  const common = commonOf(from, of);
  const found =
    measure === 'rate'
      ? stratifiedRateDifference(rateStrata(from, common))
      : stratifiedMeanDifference(meanStrata(from, common));
  const counts = { nA: total(from[0].count, common), nB: total(from[1].count, common) };
  if (!found.estimable) return { ...nothing, ...counts };
  const { value1, value2, difference, lower, upper, weight } = found;
  return { ...counts, valueA: value1, valueB: value2, difference, lower, upper, weight };
}
