import { indexOf } from '#lib/core/reconciliation/index.ts';
import { causeCodes, causeOutcomes } from './codes.ts';
import { settleContext, varianceAt } from './context.ts';
import { normalDensity, unexplainedDensity, unknownDensity } from './densities.ts';
import type { CauseEvidence } from './evidence.ts';
import type { CauseOptions } from './options.ts';
import { type CauseProposals, clearCauseProposals } from './proposals.ts';
import { asTyped } from './reading.ts';
import { weighDensity } from './readings/density.ts';
import { weighDensityUnits } from './readings/density-unit.ts';
import { weighDigits } from './readings/digits.ts';
import { weighGauge } from './readings/gauge.ts';
import { weighMeter } from './readings/meter.ts';
import { weighShifts } from './readings/shifts.ts';
import { weighTickets } from './readings/tickets.ts';
import { weighUnits } from './readings/units.ts';
import { witnessesOf } from './witnesses.ts';

const nothingWrong = indexOf(causeOutcomes, 'nothingWrong');
const named = indexOf(causeOutcomes, 'named');
const cannotTell = indexOf(causeOutcomes, 'cannotTell');
const unknown = indexOf(causeOutcomes, 'unknown');

/** Weight of nothing being wrong: both halves agree as they stand. */
function nothingWrongWeight(evidence: CauseEvidence, options: CauseOptions, out: CauseProposals): number {
  const { context } = out;
  const reading = asTyped(out.reading, -1, evidence);
  const { gaugeUpliftKg, meteredMassKg } = reading;
  if (!(gaugeUpliftKg > 0) || !(meteredMassKg > 0)) return 0;
  const residual = Math.log(gaugeUpliftKg / meteredMassKg) - context.expected;
  const density = normalDensity(residual, Math.sqrt(varianceAt(context, meteredMassKg, gaugeUpliftKg)));
  return options.nothingWrongCount * density * witnessesOf(evidence, options, context, reading);
}

/** Weight of an unknown fault: any log ratio, and the figures beside it agree with what is typed or with nothing. */
function unknownWeight(evidence: CauseEvidence, options: CauseOptions, out: CauseProposals): number {
  const reading = asTyped(out.reading, -1, evidence);
  reading.copied = 0.5;
  reading.volumeL = NaN;
  reading.meteredMassKg = NaN;
  reading.arrivalFuelKg = NaN;
  reading.departureFuelKg = NaN;
  const { gaugeUpliftKg, meteredMassKg } = evidence;
  const isRatio = gaugeUpliftKg > 0 && meteredMassKg > 0;
  const density = isRatio ? unexplainedDensity(Math.log(gaugeUpliftKg / meteredMassKg)) : unknownDensity;
  return options.unknownCount * density * witnessesOf(evidence, options, out.context, reading);
}

/** Turns weights into shares of the whole. */
function settlePosterior(plain: number, unexplained: number, out: CauseProposals): void {
  let total = plain + unexplained;
  for (const weight of out.posterior) total += weight;
  out.nothingWrong = plain / total;
  out.unknown = unexplained / total;
  for (let cause = 0; cause < causeCodes.length; cause++)
    out.posterior[cause] = (out.posterior[cause] ?? 0) / total;
}

const likeliest = (out: CauseProposals): number => {
  let best = -1;
  for (let cause = 0; cause < causeCodes.length; cause++)
    if ((out.posterior[cause] ?? 0) > (best < 0 ? 0 : (out.posterior[best] ?? 0))) best = cause;
  return best;
};

/** The causes near enough to be listed, and how much of the whole they make up together. */
function settleGroup(options: CauseOptions, out: CauseProposals): number {
  let together = 0;
  for (let cause = 0; cause < causeCodes.length; cause++) {
    const share = out.posterior[cause] ?? 0;
    if (share < options.listFrom || !((out.residualSd[cause] ?? NaN) < options.nameWithinSd)) continue;
    out.group[cause] = 1;
    together += share;
  }
  return together;
}

function settleOutcome(options: CauseOptions, out: CauseProposals): void {
  out.cause = likeliest(out);
  const together = settleGroup(options, out);
  const isNear = out.group[out.cause] === 1;
  if (isNear && (out.posterior[out.cause] ?? 0) >= options.nameFrom) out.outcome = named;
  else if (together >= options.nameFrom) out.outcome = cannotTell;
  else if (out.nothingWrong >= options.nameFrom) out.outcome = nothingWrong;
  else out.outcome = unknown;
}

/**
 * What one record would fit if one thing were wrong: for each cause its posterior and the values the record would
 * have. A mixture of explained errors, no error, and unexplained ones of any size up to a factor of e^3, each
 * with its prior count; a cause is named from `nameFrom` on and only if it fits. Proposes, never corrects.
 * Fills `out`; allocates only where a density is none of jet fuel.
 *
 * Method: mixture of a known and a contaminating distribution, Box & Tiao 1968, Biometrika 55:119 (from memory).
 */
export function proposeCauses(evidence: CauseEvidence, options: CauseOptions, out: CauseProposals): void {
  clearCauseProposals(out);
  settleContext(evidence, options, out.context);
  weighUnits(evidence, options, out);
  weighDigits(evidence, options, out);
  weighShifts(evidence, options, out);
  weighMeter(evidence, options, out);
  weighTickets(evidence, options, out);
  weighGauge(evidence, options, out);
  weighDensity(evidence, options, out);
  weighDensityUnits(evidence, options, out);
  const plain = nothingWrongWeight(evidence, options, out);
  settlePosterior(plain, unknownWeight(evidence, options, out), out);
  settleOutcome(options, out);
}
