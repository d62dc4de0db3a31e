import { wilson } from '#lib/core/statistics/index.ts';
import type { GroupKey, RecordFilter } from '#lib/data/ledger/index.ts';
import type { QuestionContext } from './context.ts';
import { rateBits, ratesOf } from './rates.ts';

/** Judged refuellings from which a rate may be given a verdict. Fewer: "too few to say". */
export const fewestForVerdict = 30;

/** Rate, bias and scatter of one group of refuellings. NaN where there is nothing to say. */
export interface DiscrepancyGroup {
  /** Name of the group, '' for "not recorded". */
  readonly name: string;
  readonly refuellings: number;
  /** With a discrepancy and a limit, measured (estimated too when switched on). */
  readonly judged: number;
  readonly outside: number;
  /** Of those outside: no further than their own uncertainty explains. */
  readonly withinUncertainty: number;
  /** Of those outside: suspected slips. */
  readonly slips: number;
  /** outside / judged with its 95 % Wilson interval. */
  readonly rate: number;
  readonly rateLower: number;
  readonly rateUpper: number;
  /** Refuellings behind bias and scatter: with a discrepancy, suspected slips left out. */
  readonly measured: number;
  readonly meanKg: number;
  /** Mean, its standard error and spread of the discrepancy in per cent of metered mass. */
  readonly meanPercent: number;
  readonly meanErrorPercent: number;
  readonly spreadPercent: number;
  readonly sumKg: number;
  /** Metered mass of all refuellings of the group, kg. */
  readonly meteredKg: number;
}

export interface DiscrepancyAnswer {
  readonly by: GroupKey;
  readonly groups: readonly DiscrepancyGroup[];
  readonly all: DiscrepancyGroup;
}

type Sums = Readonly<
  Record<
    | 'refuellings'
    | 'judged'
    | 'outside'
    | 'withinUncertainty'
    | 'slips'
    | 'measured'
    | 'kg'
    | 'meteredKg'
    | 'percent'
    | 'squares',
    Float64Array
  >
>;

/** Sums per group in arrays by code: nothing is made per row. */
function createSums(count: number): Sums {
  return {
    refuellings: new Float64Array(count),
    judged: new Float64Array(count),
    outside: new Float64Array(count),
    withinUncertainty: new Float64Array(count),
    slips: new Float64Array(count),
    measured: new Float64Array(count),
    kg: new Float64Array(count),
    meteredKg: new Float64Array(count),
    percent: new Float64Array(count),
    squares: new Float64Array(count)
  };
}

function add(array: Float64Array, index: number, value: number): void {
  array[index] = (array[index] ?? 0) + value;
}

/**
 * The code of each row's group, the place for all rows behind the last. A refuelling served by two vehicles counts
 * for neither.
 */
function groupCodes(context: QuestionContext, by: GroupKey, rows: Uint32Array): Uint32Array {
  const { codes } = context.group(by);
  const { severalVehicles } = context.ledger.computed;
  const isByVehicle = by === 'vehicle';
  const found = new Uint32Array(rows.length);
  for (let i = 0; i < rows.length; i++) {
    const row = rows[i] as number;
    found[i] = isByVehicle && severalVehicles[row] === 1 ? 0 : (codes[row] as number);
  }
  return found;
}

/** Values that the bits of a row can have. */
const tallies = 2 * Math.max(...Object.values(rateBits));

/** Counts by group from how often each combination of bits was met in it, and their totals at `all`. */
function countAll(tally: Uint32Array, sums: Sums, all: number): void {
  const { refuellings, judged, outside, withinUncertainty, slips, measured } = sums;
  for (let code = 0; code < all; code++) {
    for (let bits = 0; bits < tallies; bits++) {
      const count = tally[code * tallies + bits] ?? 0;
      if (count === 0) continue;
      add(refuellings, code, count);
      if ((bits & rateBits.judged) !== 0) add(judged, code, count);
      if ((bits & rateBits.measured) !== 0) add(measured, code, count);
      if ((bits & rateBits.outside) === 0) continue;
      add(outside, code, count);
      if ((bits & rateBits.withinUncertainty) !== 0) add(withinUncertainty, code, count);
      if ((bits & rateBits.slip) !== 0) add(slips, code, count);
    }
  }
  for (const counts of [refuellings, judged, outside, withinUncertainty, slips, measured]) {
    for (let code = 0; code < all; code++) add(counts, all, counts[code] ?? 0);
  }
}

/** Sums by group and, at `all`, over all of the rows in their order. */
function addAll(
  context: QuestionContext,
  rows: Uint32Array,
  codes: Uint32Array,
  sums: Sums,
  all: number
): void {
  const { discrepancyKg, refuellingMassKg } = context.ledger.computed;
  const { flags, percent } = ratesOf(context);
  const { meteredKg, kg, percent: percents } = sums;
  const tally = new Uint32Array(all * tallies);
  let meteredOfAll = 0;
  let kgOfAll = 0;
  let percentOfAll = 0;
  for (let i = 0; i < rows.length; i++) {
    const row = rows[i] as number;
    const code = codes[i] as number;
    const bits = flags[row] as number;
    const place = code * tallies + bits;
    tally[place] = (tally[place] as number) + 1;
    if ((bits & rateBits.metered) !== 0) {
      const mass = refuellingMassKg[row] as number;
      meteredKg[code] = (meteredKg[code] as number) + mass;
      meteredOfAll += mass;
    }
    if ((bits & rateBits.measured) === 0) continue;
    const difference = discrepancyKg[row] as number;
    const share = percent[row] as number;
    kg[code] = (kg[code] as number) + difference;
    percents[code] = (percents[code] as number) + share;
    kgOfAll += difference;
    percentOfAll += share;
  }
  meteredKg[all] = meteredOfAll;
  kg[all] = kgOfAll;
  percents[all] = percentOfAll;
  countAll(tally, sums, all);
  addSquares(rows, codes, flags, percent, sums, all);
}

/** Squares in a pass of their own around the mean: one-pass sums lose all digits of a small spread. */
function addSquares(
  rows: Uint32Array,
  codes: Uint32Array,
  flags: Uint8Array,
  percent: Float64Array,
  sums: Sums,
  all: number
): void {
  const means = sums.percent.map((sum, code) => sum / (sums.measured[code] ?? 1));
  const meanOfAll = means[all] ?? NaN;
  const { squares } = sums;
  let squaresOfAll = 0;
  for (let i = 0; i < rows.length; i++) {
    const row = rows[i] as number;
    if (((flags[row] as number) & rateBits.measured) === 0) continue;
    const code = codes[i] as number;
    const share = percent[row] as number;
    const own = share - (means[code] as number);
    const common = share - meanOfAll;
    squares[code] = (squares[code] as number) + own * own;
    squaresOfAll += common * common;
  }
  squares[all] = squaresOfAll;
}

function groupOf(sums: Sums, code: number, name: string): DiscrepancyGroup {
  const at = (array: Float64Array) => array[code] ?? 0;
  const judged = at(sums.judged);
  const measured = at(sums.measured);
  const interval = judged > 0 ? wilson(at(sums.outside), judged) : { lower: NaN, upper: NaN };
  const spreadPercent = measured > 1 ? Math.sqrt(at(sums.squares) / (measured - 1)) : NaN;
  return {
    name,
    refuellings: at(sums.refuellings),
    judged,
    outside: at(sums.outside),
    withinUncertainty: at(sums.withinUncertainty),
    slips: at(sums.slips),
    rate: judged > 0 ? at(sums.outside) / judged : NaN,
    rateLower: interval.lower,
    rateUpper: interval.upper,
    measured,
    meanKg: measured > 0 ? at(sums.kg) / measured : NaN,
    meanPercent: measured > 0 ? at(sums.percent) / measured : NaN,
    meanErrorPercent: spreadPercent / Math.sqrt(measured),
    spreadPercent,
    sumKg: at(sums.kg),
    meteredKg: at(sums.meteredKg)
  };
}

/** Rates outside limits, bias and scatter per group. Groups without a refuelling in the selection are left out. */
export function discrepancy(
  context: QuestionContext,
  asked: { readonly filter: RecordFilter; readonly by: GroupKey }
): DiscrepancyAnswer {
  const { refuellings } = context.select(asked.filter);
  const grouping = context.group(asked.by);
  const all = grouping.count;
  const sums = createSums(all + 1);
  addAll(context, refuellings, groupCodes(context, asked.by, refuellings), sums, all);
  const groups: DiscrepancyGroup[] = [];
  for (let code = 0; code < grouping.count; code++) {
    if ((sums.refuellings[code] ?? 0) > 0) groups.push(groupOf(sums, code, grouping.name(code)));
  }
  const ordered = asked.by === 'size' || asked.by === 'month';
  if (!ordered) groups.sort((a, b) => (a.name < b.name ? -1 : a.name > b.name ? 1 : 0));
  return { by: asked.by, groups, all: groupOf(sums, all, '') };
}
