import { causeCodes } from './codes.ts';
import { varianceAt } from './context.ts';
import { normalDensity } from './densities.ts';
import type { CauseEvidence } from './evidence.ts';
import type { CauseOptions } from './options.ts';
import type { CauseProposals } from './proposals.ts';
import type { Reading } from './reading.ts';
import { witnessesOf } from './witnesses.ts';

/** Beyond so many standard deviations a reading weighs nothing. */
const farthestSd = 8;

export function priorOf(options: CauseOptions, cause: number): number {
  const code = causeCodes[cause];
  return code === undefined ? 0 : options.priorCounts[code];
}

/** Adds a reading's weight to its cause and keeps the values of the weightiest. */
function add(out: CauseProposals, reading: Reading, weight: number, residualSd: number): void {
  const { cause } = reading;
  out.posterior[cause] = (out.posterior[cause] ?? 0) + weight;
  if (!(weight > (out.bestWeight[cause] ?? 0))) return;
  out.bestWeight[cause] = weight;
  out.residualSd[cause] = residualSd;
  out.meteredMassKg[cause] = reading.meteredMassKg;
  out.gaugeUpliftKg[cause] = reading.gaugeUpliftKg;
  out.figure[cause] = reading.figure;
  out.figureValue[cause] = reading.figureValue;
}

/** Weighs a reading whose both halves are known: it must fit within the record's scatter. */
export function weigh(evidence: CauseEvidence, options: CauseOptions, out: CauseProposals): void {
  const { context, reading } = out;
  const { meteredMassKg, gaugeUpliftKg } = reading;
  if (!(meteredMassKg > 0) || !(gaugeUpliftKg > 0)) return;
  const sd = Math.sqrt(varianceAt(context, meteredMassKg, gaugeUpliftKg) + reading.extraVariance);
  const residual = Math.log(gaugeUpliftKg / meteredMassKg) - context.expected;
  if (Math.abs(residual) > farthestSd * sd) return;
  const prior = priorOf(options, reading.cause) * reading.share * reading.signs;
  const density = normalDensity(residual, sd) * witnessesOf(evidence, options, context, reading);
  add(out, reading, prior * density, Math.abs(residual) / sd);
}

/**
 * Weighs a reading that leaves one figure free, so that it fits by itself: `density` says how likely the size of
 * the fault is, per unit of the log ratio.
 */
export function weighFree(
  density: number,
  evidence: CauseEvidence,
  options: CauseOptions,
  out: CauseProposals
): void {
  const { context, reading } = out;
  const prior = priorOf(options, reading.cause) * reading.share * reading.signs;
  add(out, reading, prior * density * witnessesOf(evidence, options, context, reading), 0);
}
