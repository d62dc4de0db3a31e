import {
  filled,
  fitCrossedRobustSteps,
  likelyOffsets,
  runSteps,
  stretches,
  type CrossedRecords,
  type FittedFactor,
  type RobustFit,
  type Estimate,
  type Shortfall,
  type Steps
} from '#lib/core/statistics/index.ts';
import { limitCheckBits, type RecordFilter, type Verdicts } from '#lib/data/ledger/index.ts';
import type { QuestionContext } from './context.ts';

/** An aircraft or a vehicle by what is its own of the discrepancy, the other side's effects taken off, in %. */
export interface Effect {
  readonly name: string;
  /** Against the mean of all of its kind; plus: gauge says more. */
  readonly effect: number;
  readonly error: number;
  /** Refuellings that counted, and those that were too wild to count. */
  readonly kept: number;
  readonly dropped: number;
  /** Share of the real differences that the data resolve for it. */
  readonly reliability: number;
  /** False where the data cannot tell it from what it always meets. */
  readonly separable: boolean;
  /** Groups that never meet each other; they compare only by assumption. */
  readonly block: number;
  /** Named as likely off by more than the tolerance, with the share of false names held to 10 %. */
  readonly likelyOff: boolean;
}

/** All refuellings of one aircraft with one vehicle. */
export interface Meeting {
  readonly tail: string;
  readonly vehicle: string;
  readonly n: number;
  readonly meanPercent: number;
  readonly fittedPercent: number;
}

export type AttributionAnswer =
  | { readonly estimable: false; readonly reason: Shortfall; readonly refuellings: number }
  | {
      readonly estimable: true;
      readonly refuellings: number;
      readonly dropped: number;
      /** Common to all: a bias shared by all gauges or all meters is in it and belongs to neither. */
      readonly meanPercent: number;
      readonly meanErrorPercent: number;
      /** Scatter of one large refuelling, %, and the part in kg that small ones add. */
      readonly sigmaPercent: number;
      readonly noiseKg: number;
      /** Spread of the true effects, %. */
      readonly tailSpread: number;
      readonly vehicleSpread: number;
      readonly blocks: number;
      readonly tolerancePercent: number;
      readonly tails: readonly Effect[];
      readonly vehicles: readonly Effect[];
      readonly meetings: readonly Meeting[];
    };

/** Practical tolerance: an effect below this is nobody's work. Common practice, no source. */
const tolerancePercent = 0.3;

/** Refuellings by tail and vehicle with 100 ln(gauge / metered), in which effects are exactly additive. */
export interface CrossedSelection extends CrossedRecords {
  readonly a: Int32Array;
  readonly b: Int32Array;
  readonly y: Float64Array;
  readonly rows: Uint32Array;
  readonly massKg: Float64Array;
}

/**
 * Names with fewer refuellings are left out: the one wild record of a misspelt tail would pass for what is its own,
 * and for a spread of all gauges.
 */
const fewestOfName = 5;

/** For each code of a column whether enough of the rows bear it. */
function* areMany(rows: Uint32Array, codes: Uint32Array, count: number): Steps<Uint8Array> {
  const counts = new Uint32Array(count);
  yield* stretches(rows.length, (from, to) => {
    for (let i = from; i < to; i++) {
      const code = codes[rows[i] as number] as number;
      counts[code] = (counts[code] as number) + 1;
    }
  });
  return Uint8Array.from(counts, (met) => (met >= fewestOfName ? 1 : 0));
}

/** The rows that pass, in their order. */
function* passing(rows: Uint32Array, passes: (row: number) => boolean): Steps<Uint32Array> {
  const found = new Uint32Array(rows.length);
  let count = 0;
  yield* stretches(rows.length, (from, to) => {
    for (let i = from; i < to; i++) {
      const row = rows[i] as number;
      if (passes(row)) found[count++] = row;
    }
  });
  return found.slice(0, count);
}

/** The refuellings of a filter that can be crossed: both names known and met often enough, counted, no suspected slip. */
export function* crossedSelection(context: QuestionContext, filter: RecordFilter): Steps<CrossedSelection> {
  const { computed, verdicts, source } = context.ledger;
  const tails = source.columns.code('tail').codes();
  const vehicles = source.columns.code('vehicle').codes();
  const crossable = yield* passing(context.select(filter).refuellings, (row) => {
    const isSlip = ((verdicts.checks[row] ?? 0) & limitCheckBits.suspectedSlip) !== 0;
    return (
      !isSlip &&
      context.ledger.counts(row) &&
      computed.severalVehicles[row] !== 1 &&
      (tails[row] ?? 0) > 0 &&
      (vehicles[row] ?? 0) > 0 &&
      (computed.refuellingMassKg[row] ?? NaN) > 0 &&
      (computed.gaugeUpliftKg[row] ?? NaN) > 0
    );
  });
  const tailMet = yield* areMany(crossable, tails, source.columns.code('tail').dictionary.size);
  const vehicleMet = yield* areMany(crossable, vehicles, source.columns.code('vehicle').dictionary.size);
  const rows = yield* passing(
    crossable,
    (row) => tailMet[tails[row] ?? 0] === 1 && vehicleMet[vehicles[row] ?? 0] === 1
  );
  const { length } = rows;
  const massKg = yield* filled(
    new Float64Array(length),
    (i) => computed.refuellingMassKg[rows[i] ?? 0] ?? NaN
  );
  return {
    rows,
    massKg,
    a: yield* filled(new Int32Array(length), (i) => tails[rows[i] ?? 0] ?? -1),
    b: yield* filled(new Int32Array(length), (i) => vehicles[rows[i] ?? 0] ?? -1),
    y: yield* filled(
      new Float64Array(length),
      (i) => 100 * Math.log((computed.gaugeUpliftKg[rows[i] ?? 0] ?? NaN) / (massKg[i] ?? NaN))
    )
  };
}

type CrossedFitOrNot = Estimate<RobustFit>;

/** What the fits kept rest on together, at most: more would hold hundreds of megabytes. */
const mostRowsKept = 1_000_000;

/**
 * Fits by filter, kept as long as the verdicts they rest on: a hash that comes late renews every answer, but changes
 * no number, and no fit is worked out again for it.
 */
const keptFits = new WeakMap<Verdicts, Map<string, CrossedFitOrNot>>();

/** Lets go of the fits asked for longest ago, all but the newest, until they are small enough. */
function letGo(fits: Map<string, CrossedFitOrNot>): void {
  const rowsOf = (fit: CrossedFitOrNot) => (fit.estimable ? fit.residual.length : 0);
  let total = [...fits.values()].reduce((sum, fit) => sum + rowsOf(fit), 0);
  for (const [key, fit] of fits) {
    if (total <= mostRowsKept || fits.size === 1) return;
    total -= rowsOf(fit);
    fits.delete(key);
  }
}

export function* crossedFit(
  context: QuestionContext,
  filter: RecordFilter,
  records: CrossedSelection
): Steps<CrossedFitOrNot> {
  const { source, verdicts } = context.ledger;
  const fits = keptFits.get(verdicts) ?? new Map<string, CrossedFitOrNot>();
  keptFits.set(verdicts, fits);
  const key = JSON.stringify(filter);
  const fit =
    fits.get(key) ??
    (yield* fitCrossedRobustSteps(records, {
      size: records.massKg,
      levelsA: source.columns.code('tail').dictionary.size,
      levelsB: source.columns.code('vehicle').dictionary.size
    }));
  fits.delete(key);
  fits.set(key, fit);
  letGo(fits);
  return fit;
}

function effectsOf(factor: FittedFactor, dropped: Int32Array, nameOf: (code: number) => string): Effect[] {
  const off = new Set(likelyOffsets(factor, tolerancePercent).map(({ level }) => level));
  const effects: Effect[] = [];
  factor.contrast.forEach((effect, code) => {
    if (Number.isNaN(effect)) return;
    effects.push({
      name: nameOf(code),
      effect,
      error: factor.contrastError[code] ?? NaN,
      kept: factor.records[code] ?? 0,
      dropped: dropped[code] ?? 0,
      reliability: factor.reliability[code] ?? NaN,
      separable: factor.separable[code] === 1,
      block: factor.component[code] ?? -1,
      likelyOff: off.has(code)
    });
  });
  return effects.sort((p, q) => q.effect - p.effect);
}

/** Meetings put together between two rests. */
const meetingsAStep = 1 << 12;

/** Levels of a factor with most records, marked by code; `always` marks further ones. */
function largestOf(factor: FittedFactor, most: number, always: (code: number) => boolean): Uint8Array {
  const codes = [...factor.contrast.keys()].filter((code) => !Number.isNaN(factor.contrast[code] ?? NaN));
  codes.sort((p, q) => (factor.records[q] ?? 0) - (factor.records[p] ?? 0));
  const marked = new Uint8Array(factor.contrast.length);
  codes.forEach((code, place) => (marked[code] = place < most || always(code) ? 1 : 0));
  return marked;
}

/** Meetings of the largest aircraft with the largest vehicles, and all of vehicles that cannot be told from aircraft. */
function* meetingsOf(
  records: CrossedSelection,
  fit: RobustFit,
  { tails: mostTails, vehicles: mostVehicles }: MeetingsWanted,
  tailName: (code: number) => string,
  vehicleName: (code: number) => string
): Steps<Meeting[]> {
  const cells = new Map<number, { n: number; sum: number }>();
  const vehicles = fit.b.effect.length;
  const isTied = (code: number) => fit.b.separable[code] !== 1;
  const tailShown = largestOf(fit.a, mostTails, () => false);
  const vehicleShown = largestOf(fit.b, mostVehicles, isTied);
  yield* stretches(records.y.length, (from, to) => {
    for (let k = from; k < to; k++) {
      if (fit.robustWeight[k] === 0) continue;
      const tail = records.a[k] as number;
      const vehicle = records.b[k] as number;
      if (vehicleShown[vehicle] !== 1 || (tailShown[tail] !== 1 && !isTied(vehicle))) continue;
      const key = tail * vehicles + vehicle;
      const y = records.y[k] ?? NaN;
      const cell = cells.get(key);
      if (cell === undefined) cells.set(key, { n: 1, sum: y });
      else {
        cell.n++;
        cell.sum += y;
      }
    }
  });
  const meetings: Meeting[] = [];
  for (const [key, { n, sum }] of cells) {
    const tail = Math.floor(key / vehicles);
    const vehicle = key % vehicles;
    meetings.push({
      tail: tailName(tail),
      vehicle: vehicleName(vehicle),
      n,
      meanPercent: sum / n,
      fittedPercent: fit.mean + (fit.a.effect[tail] ?? NaN) + (fit.b.effect[vehicle] ?? NaN)
    });
    if (meetings.length % meetingsAStep === 0) yield;
  }
  return meetings;
}

/** Of how many aircraft and vehicles, those with most refuellings, the meetings are wanted. */
export interface MeetingsWanted {
  readonly tails: number;
  readonly vehicles: number;
}

interface AttributionQuestion {
  readonly filter: RecordFilter;
  /** Left out where the effects alone are wanted: a large fleet has hundreds of thousands of meetings. */
  readonly meetings?: MeetingsWanted;
}

/** Which part of the discrepancy goes with the aircraft and which with the vehicle: a crossed, robust fit. */
export function attribution(context: QuestionContext, asked: AttributionQuestion): AttributionAnswer {
  return runSteps(attributionSteps(context, asked));
}

/** The same in steps. */
export function* attributionSteps(
  context: QuestionContext,
  asked: AttributionQuestion
): Steps<AttributionAnswer> {
  const records = yield* crossedSelection(context, asked.filter);
  const fit = yield* crossedFit(context, asked.filter, records);
  if (!fit.estimable) return { estimable: false, reason: fit.reason, refuellings: records.rows.length };
  const { columns } = context.ledger.source;
  const tailName = (code: number) => columns.code('tail').dictionary.text(code);
  const vehicleName = (code: number) => columns.code('vehicle').dictionary.text(code);
  const tails = effectsOf(fit.a, fit.droppedA, tailName);
  yield;
  const vehicles = effectsOf(fit.b, fit.droppedB, vehicleName);
  yield;
  return {
    estimable: true,
    refuellings: fit.n,
    dropped: fit.dropped,
    meanPercent: fit.mean,
    meanErrorPercent: fit.meanError,
    sigmaPercent: fit.sigma,
    noiseKg: (Math.sqrt(fit.phi) * fit.sigma) / 100,
    tailSpread: fit.a.sd,
    vehicleSpread: fit.b.sd,
    blocks: fit.components,
    tolerancePercent,
    tails,
    vehicles,
    meetings:
      asked.meetings === undefined
        ? []
        : yield* meetingsOf(records, fit, asked.meetings, tailName, vehicleName)
  };
}
