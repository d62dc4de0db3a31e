import { amountToAdd, markBits, measured, notReconcilable, reasonBits, totalOnBoard } from './bits.ts';
import type { Method } from './method.ts';
import type { RefuellingInput, RefuellingResult } from './refuelling-structs.ts';
import { settleRefuellingUncertainty } from './refuelling-uncertainty.ts';

/** No aircraft holds a million tonnes. Smaller nonsense is computed, so that it shows as what it is. */
const largestMassKg = 1e9;

/** A known amount of fuel, NaN with its reason where it is negative or beyond all fuel. */
function amountOf(massKg: number, negativeBit: number, out: RefuellingResult): number {
  if (massKg >= 0 && massKg <= largestMassKg) return massKg;
  out.reasons |= massKg < 0 ? negativeBit : reasonBits.amountOutsideRange;
  return NaN;
}

/** The metered mass: the sum of the tickets, or 0 where fuel was only taken out. */
function settleMetered(input: RefuellingInput, out: RefuellingResult): void {
  const isDefuelOnly = input.defuelledKg > 0 && input.ticketsWithoutVolume === input.tickets;
  out.meteredMassKg = isDefuelOnly ? 0 : input.meteredMassKg;
  out.massUncertaintyKg = isDefuelOnly ? 0 : input.massUncertaintyKg;
  out.quality = isDefuelOnly ? measured : input.quality;
  out.reasons = isDefuelOnly ? 0 : input.reasons;
  out.marks = input.marks;
  if (isDefuelOnly) out.marks |= markBits.defuelOnly;
  if (!isDefuelOnly && input.tickets === 0) {
    out.meteredMassKg = NaN;
    out.massUncertaintyKg = NaN;
    out.reasons |= reasonBits.volumeMissing;
  }
}

/** Ground burn as given, else from minutes and the operator's rate, else counted 0 and marked. */
function settleGroundBurn(input: RefuellingInput, out: RefuellingResult): void {
  const fromMinutes = input.groundMinutes * input.groundBurnRateKgPerMinute;
  if (Number.isFinite(input.groundBurnKg)) {
    out.groundBurnKg = input.groundBurnKg;
  } else if (Number.isFinite(fromMinutes)) {
    out.groundBurnKg = fromMinutes;
    out.marks |= markBits.groundBurnNotRecorded | markBits.groundBurnFromMinutes;
  } else {
    out.groundBurnKg = 0;
    out.marks |= markBits.groundBurnNotRecorded;
  }
  out.groundBurnKg = amountOf(out.groundBurnKg, reasonBits.groundBurnNegative, out);
}

/** Fuel taken out: blank means none. */
function defuelledOf(input: RefuellingInput, out: RefuellingResult): number {
  if (input.defuelledKg > 0) out.marks |= markBits.defuelled;
  return Number.isFinite(input.defuelledKg)
    ? amountOf(input.defuelledKg, reasonBits.defuelledNegative, out)
    : 0;
}

/** A gauge total, NaN with its reason where it is missing or impossible. */
function gaugeOf(fuelKg: number, missingBit: number, out: RefuellingResult): number {
  if (Number.isFinite(fuelKg)) return amountOf(fuelKg, reasonBits.gaugeNegative, out);
  out.reasons |= missingBit;
  return NaN;
}

function orderDifference(input: RefuellingInput, departureKg: number, meteredKg: number): number {
  if (input.orderedBasis === totalOnBoard) return departureKg - input.orderedKg;
  return input.orderedBasis === amountToAdd ? meteredKg - input.orderedKg : NaN;
}

/** What further measures, beside meter and gauge, say. */
function settleCrossChecks(input: RefuellingInput, departureKg: number, out: RefuellingResult): void {
  out.orderDifferenceKg = orderDifference(input, departureKg, out.meteredMassKg);
  out.tankSplitKg = departureKg - input.tanksAfterKg;
  out.imbalanceKg = input.leftAfterKg - input.rightAfterKg;
  out.recordedUpliftDifferenceKg = input.recordedUpliftKg - out.meteredMassKg;
  out.recordedDiscrepancyDifferenceKg = input.recordedDiscrepancyKg - out.discrepancyKg;
  out.stickLessGaugeKg = input.stickFuelKg - departureKg;
  out.stickLessExpectedKg = input.stickFuelKg - out.expectedDepartureKg;
}

/**
 * Brings the metered and the gauge half of one refuelling together. The caller adds its tickets with `addTicket`
 * first. Fills `out` and allocates nothing; a half that is missing leaves NaN and says what is missing.
 *
 * Signs: discrepancy = gauge uplift - metered mass; gauge uplift = departure - arrival + ground burn + defuelled.
 */
export function reconcileRefuelling(input: RefuellingInput, method: Method, out: RefuellingResult): void {
  settleMetered(input, out);
  settleGroundBurn(input, out);
  const defuelledKg = defuelledOf(input, out);
  const arrivalKg = gaugeOf(input.arrivalFuelKg, reasonBits.arrivalFuelMissing, out);
  const departureKg = gaugeOf(input.departureFuelKg, reasonBits.departureFuelMissing, out);
  const meteredKg = out.meteredMassKg;
  out.gaugeUpliftKg = departureKg - arrivalKg + out.groundBurnKg + defuelledKg;
  out.expectedDepartureKg = arrivalKg - out.groundBurnKg - defuelledKg + meteredKg;
  out.discrepancyKg = out.gaugeUpliftKg - meteredKg;
  out.percentOfMetered = meteredKg > 0 ? (100 * out.discrepancyKg) / meteredKg : NaN;
  const higherKg = Math.max(departureKg, out.expectedDepartureKg);
  out.percentOfHigher = higherKg > 0 ? (100 * out.discrepancyKg) / higherKg : NaN;
  out.ratio = meteredKg > 0 ? out.gaugeUpliftKg / meteredKg : NaN;
  if (departureKg < arrivalKg && meteredKg > 0 && defuelledKg === 0)
    out.marks |= markBits.gaugeFellWhileFuelling;
  settleCrossChecks(input, departureKg, out);
  settleRefuellingUncertainty(input, method, out);
  if (!Number.isFinite(out.discrepancyKg)) out.quality = notReconcilable;
}
