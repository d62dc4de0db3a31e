import { notJudged, outside } from '#lib/core/reconciliation/index.ts';
import { wilson } from '#lib/core/statistics/index.ts';
import { limitCheckBits, type GroupKey, type RecordFilter } from '#lib/data/ledger/index.ts';
import type { QuestionContext } from './context.ts';

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

/** Sums per group in arrays by code: nothing is made per row. */
class Sums {
  readonly refuellings: Float64Array;
  readonly judged: Float64Array;
  readonly outside: Float64Array;
  readonly withinUncertainty: Float64Array;
  readonly slips: Float64Array;
  readonly measured: Float64Array;
  readonly kg: Float64Array;
  readonly meteredKg: Float64Array;
  readonly percent: Float64Array;
  readonly squares: Float64Array;

  constructor(count: number) {
    const sums = () => new Float64Array(count);
    this.refuellings = sums();
    this.judged = sums();
    this.outside = sums();
    this.withinUncertainty = sums();
    this.slips = sums();
    this.measured = sums();
    this.kg = sums();
    this.meteredKg = sums();
    this.percent = sums();
    this.squares = sums();
  }
}

function add(array: Float64Array, index: number, value: number): void {
  array[index] = (array[index] ?? 0) + value;
}

function addAll(context: QuestionContext, rows: Uint32Array, codes: Uint32Array | null, sums: Sums): void {
  const { computed, verdicts } = context.ledger;
  const { discrepancyKg, refuellingMassKg, severalVehicles } = computed;
  const ofVehicle = codes !== null && codes === context.group('vehicle').codes;
  for (let i = 0; i < rows.length; i++) {
    const row = rows[i] ?? 0;
    // A refuelling served by two vehicles counts for neither.
    const code = codes === null || (ofVehicle && severalVehicles[row] === 1) ? 0 : (codes[row] ?? 0);
    add(sums.refuellings, code, 1);
    const mass = refuellingMassKg[row] ?? NaN;
    if (mass > 0) add(sums.meteredKg, code, mass);
    const slip = ((verdicts.checks[row] ?? 0) & limitCheckBits.suspectedSlip) !== 0;
    if (verdicts.verdict[row] !== notJudged) {
      add(sums.judged, code, 1);
      if (verdicts.verdict[row] === outside) {
        add(sums.outside, code, 1);
        add(sums.withinUncertainty, code, verdicts.withinUncertainty[row] ?? 0);
        if (slip) add(sums.slips, code, 1);
      }
    }
    const discrepancy = discrepancyKg[row] ?? NaN;
    if (slip || !context.ledger.counts(row) || !(mass > 0) || Number.isNaN(discrepancy)) continue;
    add(sums.measured, code, 1);
    add(sums.kg, code, discrepancy);
    add(sums.percent, code, (100 * discrepancy) / mass);
  }
  // Squares in a second pass around the mean: one-pass sums lose all digits of a small spread.
  for (let i = 0; i < rows.length; i++) {
    const row = rows[i] ?? 0;
    const code = codes === null || (ofVehicle && severalVehicles[row] === 1) ? 0 : (codes[row] ?? 0);
    const mass = refuellingMassKg[row] ?? NaN;
    const discrepancy = discrepancyKg[row] ?? NaN;
    const slip = ((verdicts.checks[row] ?? 0) & limitCheckBits.suspectedSlip) !== 0;
    if (slip || !context.ledger.counts(row) || !(mass > 0) || Number.isNaN(discrepancy)) continue;
    const mean = (sums.percent[code] ?? 0) / (sums.measured[code] ?? 1);
    add(sums.squares, code, ((100 * discrepancy) / mass - mean) ** 2);
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
  const sums = new Sums(grouping.count);
  addAll(context, refuellings, grouping.codes, sums);
  const groups: DiscrepancyGroup[] = [];
  for (let code = 0; code < grouping.count; code++) {
    if ((sums.refuellings[code] ?? 0) > 0) groups.push(groupOf(sums, code, grouping.name(code)));
  }
  const whole = new Sums(1);
  addAll(context, refuellings, null, whole);
  const ordered = asked.by === 'size' || asked.by === 'month';
  if (!ordered) groups.sort((a, b) => (a.name < b.name ? -1 : a.name > b.name ? 1 : 0));
  return { by: asked.by, groups, all: groupOf(whole, 0, '') };
}
