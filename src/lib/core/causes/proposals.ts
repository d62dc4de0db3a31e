import { causeCodes } from './codes.ts';
import { createContext, type Context } from './context.ts';
import { createReading, type Reading } from './reading.ts';

/** What was found for one record. Arrays have one entry for each of `causeCodes`. Filled in place. */
export interface CauseProposals {
  /** Index in `causeOutcomes`. */
  outcome: number;
  /** Index of the cause named, or of the likeliest, -1 where none fits at all. */
  cause: number;
  nothingWrong: number;
  unknown: number;
  readonly posterior: Float64Array;
  /** 1 for the causes that cannot be told apart, or, where the outcome is unknown, for those that come nearest. */
  readonly group: Uint8Array;
  /** Distance of the best reading of each cause from a fit, in standard deviations. */
  readonly residualSd: Float64Array;
  /** What both halves would be if the cause were undone; the figure it changed, and what that would have been. */
  readonly meteredMassKg: Float64Array;
  readonly gaugeUpliftKg: Float64Array;
  /** Index in `causeFigures`. */
  readonly figure: Uint8Array;
  readonly figureValue: Float64Array;
  /** Working space, kept so that nothing is allocated for a record. */
  readonly bestWeight: Float64Array;
  readonly context: Context;
  readonly reading: Reading;
}

const numbers = (): Float64Array => new Float64Array(causeCodes.length);

export const createCauseProposals = (): CauseProposals => ({
  outcome: 0,
  cause: -1,
  nothingWrong: 0,
  unknown: 0,
  posterior: numbers(),
  group: new Uint8Array(causeCodes.length),
  residualSd: numbers(),
  meteredMassKg: numbers(),
  gaugeUpliftKg: numbers(),
  figure: new Uint8Array(causeCodes.length),
  figureValue: numbers(),
  bestWeight: numbers(),
  context: createContext(),
  reading: createReading()
});

export function clearCauseProposals(out: CauseProposals): void {
  out.outcome = 0;
  out.cause = -1;
  out.nothingWrong = 0;
  out.unknown = 0;
  out.posterior.fill(0);
  out.group.fill(0);
  out.residualSd.fill(NaN);
  out.meteredMassKg.fill(NaN);
  out.gaugeUpliftKg.fill(NaN);
  out.figure.fill(0);
  out.figureValue.fill(NaN);
  out.bestWeight.fill(0);
}

/** Discrepancy the record would have if a cause were undone, kg. */
export function discrepancyIf(proposals: CauseProposals, cause: number): number {
  return (proposals.gaugeUpliftKg[cause] ?? NaN) - (proposals.meteredMassKg[cause] ?? NaN);
}

/** The same in per cent of the metered mass it would then have. */
export function percentIf(proposals: CauseProposals, cause: number): number {
  const meteredKg = proposals.meteredMassKg[cause] ?? NaN;
  return meteredKg > 0 ? (100 * discrepancyIf(proposals, cause)) / meteredKg : NaN;
}
