import {
  fitCrossedRobust,
  likelyOffsets,
  type CrossedRecords,
  type FittedFactor,
  type RobustFit,
  type Shortfall
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
function areMany(rows: Uint32Array, codes: Uint32Array): (row: number) => boolean {
  const counts = new Map<number, number>();
  for (const row of rows) counts.set(codes[row] ?? 0, (counts.get(codes[row] ?? 0) ?? 0) + 1);
  return (row) => (counts.get(codes[row] ?? 0) ?? 0) >= fewestOfName;
}

/** The refuellings of a filter that can be crossed: both names known and met often enough, counted, no suspected slip. */
export function crossedSelection(context: QuestionContext, filter: RecordFilter): CrossedSelection {
  const { computed, verdicts, source } = context.ledger;
  const tails = source.columns.code('tail').codes();
  const vehicles = source.columns.code('vehicle').codes();
  const crossable = context.select(filter).refuellings.filter((row) => {
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
  const isTailMet = areMany(crossable, tails);
  const isVehicleMet = areMany(crossable, vehicles);
  const rows = crossable.filter((row) => isTailMet(row) && isVehicleMet(row));
  const massKg = Float64Array.from(rows, (row) => computed.refuellingMassKg[row] ?? NaN);
  return {
    rows,
    massKg,
    a: Int32Array.from(rows, (row) => tails[row] ?? -1),
    b: Int32Array.from(rows, (row) => vehicles[row] ?? -1),
    y: Float64Array.from(
      rows,
      (row, i) => 100 * Math.log((computed.gaugeUpliftKg[row] ?? NaN) / (massKg[i] ?? NaN))
    )
  };
}

/**
 * Fits by filter, kept as long as the verdicts they rest on: a hash that comes late renews every answer, but changes
 * no number, and no fit is worked out again for it.
 */
const keptFits = new WeakMap<Verdicts, Map<string, ReturnType<typeof fitCrossedRobust>>>();

export function crossedFit(
  context: QuestionContext,
  filter: RecordFilter,
  records: CrossedSelection
): ReturnType<typeof fitCrossedRobust> {
  const { source, verdicts } = context.ledger;
  const fits = keptFits.get(verdicts) ?? new Map<string, ReturnType<typeof fitCrossedRobust>>();
  keptFits.set(verdicts, fits);
  const key = JSON.stringify(filter);
  const known = fits.get(key);
  if (known !== undefined) return known;
  const fit = fitCrossedRobust(records, {
    size: records.massKg,
    levelsA: source.columns.code('tail').dictionary.size,
    levelsB: source.columns.code('vehicle').dictionary.size
  });
  fits.set(key, fit);
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

function meetingsOf(
  records: CrossedSelection,
  fit: RobustFit,
  tailName: (code: number) => string,
  vehicleName: (code: number) => string
): Meeting[] {
  const cells = new Map<number, { n: number; sum: number }>();
  const vehicles = fit.b.effect.length;
  records.y.forEach((y, k) => {
    if (fit.robustWeight[k] === 0) return;
    const key = (records.a[k] ?? 0) * vehicles + (records.b[k] ?? 0);
    const cell = cells.get(key) ?? { n: 0, sum: 0 };
    cells.set(key, { n: cell.n + 1, sum: cell.sum + y });
  });
  return [...cells].map(([key, { n, sum }]) => {
    const tail = Math.floor(key / vehicles);
    const vehicle = key % vehicles;
    return {
      tail: tailName(tail),
      vehicle: vehicleName(vehicle),
      n,
      meanPercent: sum / n,
      fittedPercent: fit.mean + (fit.a.effect[tail] ?? NaN) + (fit.b.effect[vehicle] ?? NaN)
    };
  });
}

/** Which part of the discrepancy goes with the aircraft and which with the vehicle: a crossed, robust fit. */
export function attribution(
  context: QuestionContext,
  asked: { readonly filter: RecordFilter }
): AttributionAnswer {
  const records = crossedSelection(context, asked.filter);
  const fit = crossedFit(context, asked.filter, records);
  if (!fit.estimable) return { estimable: false, reason: fit.reason, refuellings: records.rows.length };
  const { columns } = context.ledger.source;
  const tailName = (code: number) => columns.code('tail').dictionary.text(code);
  const vehicleName = (code: number) => columns.code('vehicle').dictionary.text(code);
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
    tails: effectsOf(fit.a, fit.droppedA, tailName),
    vehicles: effectsOf(fit.b, fit.droppedB, vehicleName),
    meetings: meetingsOf(records, fit, tailName, vehicleName)
  };
}
