import { amountToAdd, totalOnBoard } from '#lib/core/reconciliation/index.ts';
import type { Context } from './context.ts';
import { laplaceDensity, normalDensity, unknownDensity } from './densities.ts';
import type { CauseEvidence } from './evidence.ts';
import type { CauseOptions } from './options.ts';
import type { Reading } from './reading.ts';

/** Relative spread of figures that state one quantity twice. Common practice, no source. */
const meterSpread = 0.0001;
const recordedSpread = 0.005;
const stickShare = 0.02;

/**
 * Density of an independent figure under a reading: it agrees with the value behind the reading, or was typed
 * with the same fault and agrees with what is typed, or is itself wrong and could be anything.
 */
function mixture(typed: number, changed: number, copied: number, wrong: number): number {
  return (1 - wrong) * (copied * typed + (1 - copied) * changed) + wrong * unknownDensity;
}

/** Agreement of a figure (positive) with the value behind a reading; that of a value nobody knows is unknown too. */
function agreement(value: number, figure: number, sd: number): number {
  if (Number.isNaN(value)) return unknownDensity;
  return value > 0 ? normalDensity(Math.log(value / figure), sd) : 0;
}

/** Meter stop minus start beside the volume. */
function meterTerm(evidence: CauseEvidence, options: CauseOptions, reading: Reading): number {
  const readL = evidence.meterStopL - evidence.meterStartL;
  if (!(readL > 0) || !(evidence.volumeL > 0)) return 1;
  const sd = meterSpread + 1 / readL;
  const typed = agreement(evidence.volumeL, readL, sd);
  const changed = reading.volumeL === evidence.volumeL ? typed : agreement(reading.volumeL, readL, sd);
  return mixture(typed, changed, reading.copied, options.chance.witnessWrong);
}

/** A recorded uplift is as often worked out from the figure that is wrong as not. */
const recordedIsDerived = 0.5;

function recordedTerm(evidence: CauseEvidence, options: CauseOptions, reading: Reading): number {
  const recordedKg = evidence.recordedUpliftKg;
  if (!(recordedKg > 0) || !(evidence.meteredMassKg > 0)) return 1;
  const typed = agreement(evidence.meteredMassKg, recordedKg, recordedSpread);
  const changed =
    reading.meteredMassKg === evidence.meteredMassKg
      ? typed
      : agreement(reading.meteredMassKg, recordedKg, recordedSpread);
  const copied = Math.max(reading.copied, recordedIsDerived);
  return mixture(typed, changed, copied, options.chance.witnessWrong);
}

/** How far a delivery ends from its order, per yardstick: close by presetting, or off because the order changed. */
export function orderDensity(differenceKg: number, options: CauseOptions, context: Context): number {
  if (Number.isNaN(differenceKg)) return unknownDensity;
  const x = differenceKg / context.yardstickKg;
  const kept = normalDensity(x, options.presetScatterKg / context.yardstickKg);
  const changed = laplaceDensity(x, options.orderChange);
  return (1 - options.orderChangedShare) * kept + options.orderChangedShare * changed;
}

function orderTerm(
  evidence: CauseEvidence,
  options: CauseOptions,
  context: Context,
  reading: Reading
): number {
  const isTotal = evidence.orderedBasis === totalOnBoard;
  if (!isTotal && evidence.orderedBasis !== amountToAdd) return 1;
  const typedKg = isTotal ? evidence.departureFuelKg : evidence.meteredMassKg;
  const changedKg = isTotal ? reading.departureFuelKg : reading.meteredMassKg;
  if (!Number.isFinite(typedKg - evidence.orderedKg)) return 1;
  const typed = orderDensity(typedKg - evidence.orderedKg, options, context);
  const changed =
    changedKg === typedKg ? typed : orderDensity(changedKg - evidence.orderedKg, options, context);
  return mixture(typed, changed, reading.copied, options.chance.witnessWrong);
}

/** Tanks summed, or sticks, beside the departure fuel. */
function departureTerm(
  witnessKg: number,
  sdKg: number,
  evidence: CauseEvidence,
  options: CauseOptions,
  context: Context,
  reading: Reading
): number {
  if (!Number.isFinite(witnessKg - evidence.departureFuelKg)) return 1;
  const sd = sdKg / context.yardstickKg;
  const typed = normalDensity((witnessKg - evidence.departureFuelKg) / context.yardstickKg, sd);
  const changed = Number.isNaN(reading.departureFuelKg)
    ? unknownDensity
    : normalDensity((witnessKg - reading.departureFuelKg) / context.yardstickKg, sd);
  return mixture(typed, changed, reading.copied, options.chance.witnessWrong);
}

/** Half the tanks of a large type are rounded up: their sum is a few steps off. */
const tankSteps = 2;

function departureTerms(
  evidence: CauseEvidence,
  options: CauseOptions,
  context: Context,
  reading: Reading
): number {
  const stepKg = Number.isFinite(evidence.gaugeStepKg) ? evidence.gaugeStepKg : 10;
  const tanks = departureTerm(evidence.tanksAfterKg, tankSteps * stepKg, evidence, options, context, reading);
  const stickSdKg = stickShare * Math.max(evidence.departureFuelKg, stepKg);
  return tanks * departureTerm(evidence.stickFuelKg, stickSdKg, evidence, options, context, reading);
}

/** Fuel the tanks cannot hold, or more after a flight than before it. */
function possibility(
  evidence: CauseEvidence,
  options: CauseOptions,
  context: Context,
  reading: Reading
): number {
  const { impossible, witnessWrong } = options.chance;
  const slackKg = context.slackKg;
  const mostKg = evidence.capacityKg * 1.03 + slackKg;
  const { arrivalFuelKg, departureFuelKg } = reading;
  let factor = 1;
  if (departureFuelKg > mostKg || arrivalFuelKg + reading.meteredMassKg > mostKg) factor *= impossible;
  if (arrivalFuelKg > evidence.previousDepartureKg + slackKg) factor *= witnessWrong;
  if (evidence.nextArrivalKg > departureFuelKg + slackKg) factor *= witnessWrong;
  if (arrivalFuelKg < -slackKg) factor *= impossible;
  return factor;
}

/** What all other figures of the record say of a reading. */
export function witnessesOf(
  evidence: CauseEvidence,
  options: CauseOptions,
  context: Context,
  reading: Reading
): number {
  return (
    meterTerm(evidence, options, reading) *
    recordedTerm(evidence, options, reading) *
    orderTerm(evidence, options, context, reading) *
    departureTerms(evidence, options, context, reading) *
    possibility(evidence, options, context, reading)
  );
}
