import { indexOf, totalOnBoard } from '#lib/core/reconciliation/index.ts';
import { causeCodes, causeFigures } from '../codes.ts';
import { normalDensity, unknownDensity } from '../densities.ts';
import type { CauseEvidence } from '../evidence.ts';
import type { CauseOptions } from '../options.ts';
import type { CauseProposals } from '../proposals.ts';
import { asTyped } from '../reading.ts';
import { weigh, weighFree } from '../weigh.ts';

const staleArrival = indexOf(causeCodes, 'staleArrival');
const plannedAsGauge = indexOf(causeCodes, 'plannedAsGauge');
const gaugeReadingsSwapped = indexOf(causeCodes, 'gaugeReadingsSwapped');
const defuelSign = indexOf(causeCodes, 'defuelSign');
const oneTank = indexOf(causeCodes, 'oneTank');
const arrivalFuel = indexOf(causeFigures, 'arrivalFuel');
const departureFuel = indexOf(causeFigures, 'departureFuel');
const defuelled = indexOf(causeFigures, 'defuelled');

const orZero = (value: number): number => (Number.isFinite(value) ? value : 0);

/** Two figures copied from each other are equal to the last digit. */
const isCopy = (aKg: number, bKg: number): boolean => Math.abs(aKg - bKg) < 0.5;

/** Uplift the gauge should have shown. */
const expectedUplift = (evidence: CauseEvidence, out: CauseProposals): number =>
  evidence.meteredMassKg * Math.exp(out.context.expected);

/**
 * A gauge that did not move at all may be frozen, which is not for typing to explain. Where it had moved by the next
 * arrival it was not.
 */
function isFrozen(evidence: CauseEvidence): boolean {
  const { arrivalFuelKg, departureFuelKg, nextArrivalKg } = evidence;
  if (!isCopy(arrivalFuelKg, departureFuelKg)) return false;
  return Number.isNaN(nextArrivalKg) || isCopy(departureFuelKg, nextArrivalKg);
}

/** The previous departure fuel typed again as arrival fuel: the fuel burnt between is missing from the uplift. */
function weighStaleArrival(evidence: CauseEvidence, options: CauseOptions, out: CauseProposals): void {
  const previousKg = evidence.previousDepartureKg;
  if (!isCopy(evidence.arrivalFuelKg, previousKg) || !(evidence.meteredMassKg > 0)) return;
  const upliftKg = expectedUplift(evidence, out);
  const burntKg = upliftKg - evidence.gaugeUpliftKg;
  const { slackKg, yardstickKg } = out.context;
  if (!(burntKg > slackKg) || burntKg > previousKg + slackKg) return;
  if (isFrozen(evidence)) return;
  const reading = asTyped(out.reading, staleArrival, evidence);
  reading.signs = 1 / options.chance.arrivalUnchanged;
  reading.gaugeUpliftKg = upliftKg;
  reading.arrivalFuelKg = previousKg - burntKg;
  reading.figure = arrivalFuel;
  reading.figureValue = reading.arrivalFuelKg / evidence.gaugeUnitKg;
  weighFree(Math.min(1, yardstickKg / previousKg), evidence, options, out);
}

/** A gauge of unknown step is taken to show hundreds: then an exact hit on the order says least. */
const coarseStepKg = 100;

/** The ordered figure typed as departure fuel: exact where a gauge would have been some steps off. */
function weighPlanned(evidence: CauseEvidence, options: CauseOptions, out: CauseProposals): void {
  if (evidence.orderedBasis !== totalOnBoard || !isCopy(evidence.departureFuelKg, evidence.orderedKg)) return;
  if (!(evidence.meteredMassKg > 0)) return;
  const upliftKg = expectedUplift(evidence, out);
  const stepKg = evidence.gaugeStepKg > 0 ? evidence.gaugeStepKg : coarseStepKg;
  const reading = asTyped(out.reading, plannedAsGauge, evidence);
  reading.departureFuelKg += upliftKg - evidence.gaugeUpliftKg;
  reading.gaugeUpliftKg = upliftKg;
  reading.figure = departureFuel;
  reading.figureValue = reading.departureFuelKg / evidence.gaugeUnitKg;
  // The order is weighed at the departure this would imply; that the typed one equals it is certain.
  weighFree(out.context.yardstickKg / stepKg, evidence, options, out);
}

function weighSwapped(evidence: CauseEvidence, options: CauseOptions, out: CauseProposals): void {
  if (!(evidence.arrivalFuelKg > evidence.departureFuelKg)) return;
  const reading = asTyped(out.reading, gaugeReadingsSwapped, evidence);
  reading.arrivalFuelKg = evidence.departureFuelKg;
  reading.departureFuelKg = evidence.arrivalFuelKg;
  reading.gaugeUpliftKg += 2 * (evidence.arrivalFuelKg - evidence.departureFuelKg);
  weigh(evidence, options, out);
}

/** A defuelled amount typed below zero, or fuel added typed as fuel taken off. */
function weighDefuelSign(evidence: CauseEvidence, options: CauseOptions, out: CauseProposals): void {
  const amountKg = evidence.defuelledKg;
  if (!Number.isFinite(amountKg) || amountKg === 0) return;
  const reading = asTyped(out.reading, defuelSign, evidence);
  const onBoardKg = evidence.departureFuelKg - evidence.arrivalFuelKg + orZero(evidence.groundBurnKg);
  reading.gaugeUpliftKg = onBoardKg - amountKg;
  reading.figure = defuelled;
  reading.figureValue = -amountKg;
  weigh(evidence, options, out);
}

/** Spread of left against right where nothing is wrong, as share of the fuel on board. Common practice, no source. */
const balancedShare = 0.02;

/** The total is right, but all of the uplift is on one side. */
function weighOneTank(evidence: CauseEvidence, options: CauseOptions, out: CauseProposals): void {
  const imbalanceKg = Math.abs(evidence.leftAfterKg - evidence.rightAfterKg);
  const upliftKg = evidence.gaugeUpliftKg;
  if (!(imbalanceKg > out.context.slackKg) || !(upliftKg > 0)) return;
  const { context } = out;
  const sd = (balancedShare * evidence.departureFuelKg + context.slackKg / 3) / context.yardstickKg;
  const oneSided = normalDensity((imbalanceKg - upliftKg) / context.yardstickKg, sd);
  const balanced = normalDensity(imbalanceKg / context.yardstickKg, sd);
  const { unbalanced } = options.chance;
  const reading = asTyped(out.reading, oneTank, evidence);
  reading.signs = oneSided / ((1 - unbalanced) * balanced + unbalanced * unknownDensity);
  weigh(evidence, options, out);
}

/** Faults of the aircraft's half, readings typed the wrong way round among them. */
export function weighGauge(evidence: CauseEvidence, options: CauseOptions, out: CauseProposals): void {
  weighStaleArrival(evidence, options, out);
  weighPlanned(evidence, options, out);
  weighSwapped(evidence, options, out);
  weighDefuelSign(evidence, options, out);
  weighOneTank(evidence, options, out);
}
