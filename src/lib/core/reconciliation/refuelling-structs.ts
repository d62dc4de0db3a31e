import { markBits, measured, reasonBits } from './bits.ts';
import type { TicketResult } from './ticket-structs.ts';

/** One refuelling as numbers: the sum of its tickets and the aircraft's half. NaN is missing. */
export interface RefuellingInput {
  /** Sums over tickets, kept by `addTicket`. */
  tickets: number;
  ticketsWithoutVolume: number;
  meteredMassKg: number;
  massUncertaintyKg: number;
  quality: number;
  reasons: number;
  marks: number;

  arrivalFuelKg: number;
  departureFuelKg: number;
  groundBurnKg: number;
  groundMinutes: number;
  /** Burn on the ground the operator counts with, where one is set. */
  groundBurnRateKgPerMinute: number;
  defuelledKg: number;
  orderedKg: number;
  /** Index in `orderedBases`. */
  orderedBasis: number;
  recordedUpliftKg: number;
  /** In the sign of the program: plus, gauge says more. */
  recordedDiscrepancyKg: number;
  tanksAfterKg: number;
  leftAfterKg: number;
  rightAfterKg: number;
  /** Fuel on board after fuelling by drip, dip or magnetic level sticks. */
  stickFuelKg: number;
  gaugeCapacityKg: number;
  gaugeStepKg: number;
}

/** What one refuelling comes to. Filled in place; NaN is missing. */
export interface RefuellingResult {
  meteredMassKg: number;
  gaugeUpliftKg: number;
  /** Gauge uplift less metered mass: plus, the gauge says more. */
  discrepancyKg: number;
  percentOfMetered: number;
  /** Of the higher of expected and indicated departure fuel. */
  percentOfHigher: number;
  /** Gauge uplift over metered mass. */
  ratio: number;
  expectedDepartureKg: number;
  /** Ground burn that was counted: given, from minutes, or 0. */
  groundBurnKg: number;
  /** Departure fuel less ordered, or metered mass less ordered, by the basis. */
  orderDifferenceKg: number;
  /** Departure fuel less the sum of the tanks. */
  tankSplitKg: number;
  /** Left less right. */
  imbalanceKg: number;
  /** Recorded less recomputed. */
  recordedUpliftDifferenceKg: number;
  recordedDiscrepancyDifferenceKg: number;
  stickLessGaugeKg: number;
  stickLessExpectedKg: number;
  /** Standard uncertainties of the metered mass and of the gauge uplift. */
  massUncertaintyKg: number;
  gaugeUncertaintyKg: number;
  /** Expanded uncertainty of the discrepancy. */
  expandedUncertaintyKg: number;
  /** Discrepancy over its expanded uncertainty. */
  normalisedError: number;
  /** Index in `qualities`. */
  quality: number;
  reasons: number;
  marks: number;
}

/** A refuelling of which nothing is known, without tickets. */
export const createRefuellingInput = (): RefuellingInput => ({
  tickets: 0,
  ticketsWithoutVolume: 0,
  meteredMassKg: 0,
  massUncertaintyKg: 0,
  quality: measured,
  reasons: 0,
  marks: 0,
  arrivalFuelKg: NaN,
  departureFuelKg: NaN,
  groundBurnKg: NaN,
  groundMinutes: NaN,
  groundBurnRateKgPerMinute: NaN,
  defuelledKg: NaN,
  orderedKg: NaN,
  orderedBasis: 0,
  recordedUpliftKg: NaN,
  recordedDiscrepancyKg: NaN,
  tanksAfterKg: NaN,
  leftAfterKg: NaN,
  rightAfterKg: NaN,
  stickFuelKg: NaN,
  gaugeCapacityKg: NaN,
  gaugeStepKg: NaN
});

/** Makes a used input unknown and ticketless again, in place. */
export function clearRefuellingInput(input: RefuellingInput): void {
  input.tickets = 0;
  input.ticketsWithoutVolume = 0;
  input.meteredMassKg = 0;
  input.massUncertaintyKg = 0;
  input.quality = measured;
  input.reasons = 0;
  input.marks = 0;
  input.arrivalFuelKg = NaN;
  input.departureFuelKg = NaN;
  input.groundBurnKg = NaN;
  input.groundMinutes = NaN;
  input.groundBurnRateKgPerMinute = NaN;
  input.defuelledKg = NaN;
  input.orderedKg = NaN;
  input.orderedBasis = 0;
  input.recordedUpliftKg = NaN;
  input.recordedDiscrepancyKg = NaN;
  input.tanksAfterKg = NaN;
  input.leftAfterKg = NaN;
  input.rightAfterKg = NaN;
  input.stickFuelKg = NaN;
  input.gaugeCapacityKg = NaN;
  input.gaugeStepKg = NaN;
}

/**
 * Adds a ticket to the metered side of its refuelling. A ticket without a mass makes the sum missing. The
 * uncertainties add linearly, since one meter and one density sample may have served all tickets: the sum never
 * claims too much, and splitting a ticket does not change it.
 */
export function addTicket(input: RefuellingInput, ticket: TicketResult): void {
  input.tickets += 1;
  if ((ticket.reasons & reasonBits.volumeMissing) !== 0) input.ticketsWithoutVolume += 1;
  input.meteredMassKg += ticket.meteredMassKg;
  input.massUncertaintyKg += ticket.massUncertaintyKg;
  input.quality = Math.min(input.quality, ticket.quality);
  input.reasons |= ticket.reasons;
  input.marks |= ticket.marks;
  if (input.tickets > 1) input.marks |= markBits.severalTickets;
}

export const createRefuellingResult = (): RefuellingResult => ({
  meteredMassKg: NaN,
  gaugeUpliftKg: NaN,
  discrepancyKg: NaN,
  percentOfMetered: NaN,
  percentOfHigher: NaN,
  ratio: NaN,
  expectedDepartureKg: NaN,
  groundBurnKg: NaN,
  orderDifferenceKg: NaN,
  tankSplitKg: NaN,
  imbalanceKg: NaN,
  recordedUpliftDifferenceKg: NaN,
  recordedDiscrepancyDifferenceKg: NaN,
  stickLessGaugeKg: NaN,
  stickLessExpectedKg: NaN,
  massUncertaintyKg: NaN,
  gaugeUncertaintyKg: NaN,
  expandedUncertaintyKg: NaN,
  normalisedError: NaN,
  quality: 0,
  reasons: 0,
  marks: 0
});
