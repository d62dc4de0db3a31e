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
    const row = rows[i] ?? 0;
    found[i] = isByVehicle && severalVehicles[row] === 1 ? 0 : (codes[row] ?? 0);
  }
  return found;
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
  const { refuellings, judged, outside, withinUncertainty, slips, measured } = sums;
  const { meteredKg, kg, percent: percents } = sums;
  for (let i = 0; i < rows.length; i++) {
    const row = rows[i] ?? 0;
    const code = codes[i] ?? 0;
    const bits = flags[row] ?? 0;
    add(refuellings, code, 1);
    if ((bits & rateBits.metered) !== 0) {
      const mass = refuellingMassKg[row] ?? NaN;
      add(meteredKg, code, mass);
      add(meteredKg, all, mass);
    }
    if ((bits & rateBits.judged) !== 0) add(judged, code, 1);
    if ((bits & rateBits.outside) !== 0) {
      add(outside, code, 1);
      if ((bits & rateBits.withinUncertainty) !== 0) add(withinUncertainty, code, 1);
      if ((bits & rateBits.slip) !== 0) add(slips, code, 1);
    }
    if ((bits & rateBits.measured) === 0) continue;
    const difference = discrepancyKg[row] ?? NaN;
    const share = percent[row] ?? NaN;
    add(measured, code, 1);
    add(kg, code, difference);
    add(kg, all, difference);
    add(percents, code, share);
    add(percents, all, share);
  }
  for (const counts of [refuellings, judged, outside, withinUncertainty, slips, measured]) {
    for (let code = 0; code < all; code++) add(counts, all, counts[code] ?? 0);
  }
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
  for (let i = 0; i < rows.length; i++) {
    const row = rows[i] ?? 0;
    if (((flags[row] ?? 0) & rateBits.measured) === 0) continue;
    const code = codes[i] ?? 0;
    const share = percent[row] ?? NaN;
    add(sums.squares, code, (share - (means[code] ?? NaN)) ** 2);
    add(sums.squares, all, (share - meanOfAll) ** 2);
  }
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
