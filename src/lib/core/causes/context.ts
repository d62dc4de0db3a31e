import type { CauseEvidence } from './evidence.ts';
import type { CauseOptions } from './options.ts';

/** What all readings of one record are weighed with. */
export interface Context {
  expected: number;
  relativeVariance: number;
  noiseVariance: number;
  /** Mass that densities in kg are taken relative to, so that every reading is measured with one yardstick. */
  yardstickKg: number;
  /** Room left for the noise of a gauge before something counts as impossible. */
  slackKg: number;
}

export const createContext = (): Context => ({
  expected: 0,
  relativeVariance: 0,
  noiseVariance: 0,
  yardstickKg: 1,
  slackKg: 0
});

const square = (value: number): number => value * value;

/**
 * Variance of the log ratio of a refuelling, at the larger of its halves: of a half that is a thousandth of the
 * other the noise in kg would explain any ratio.
 */
export function varianceAt(context: Context, meteredMassKg: number, gaugeUpliftKg: number): number {
  return context.relativeVariance + context.noiseVariance / square(Math.max(meteredMassKg, gaugeUpliftKg));
}

export function settleContext(evidence: CauseEvidence, options: CauseOptions, context: Context): void {
  const relative = Number.isFinite(evidence.relativeScatter)
    ? evidence.relativeScatter
    : options.relativeScatter;
  const noiseKg = Number.isFinite(evidence.noiseKg) ? evidence.noiseKg : options.noiseKg;
  context.expected = Number.isFinite(evidence.expectedLogRatio) ? evidence.expectedLogRatio : 0;
  context.relativeVariance = square(relative);
  context.noiseVariance = square(noiseKg);
  context.slackKg = 3 * noiseKg;
  const { gaugeUpliftKg, meteredMassKg } = evidence;
  context.yardstickKg = Math.max(
    gaugeUpliftKg > 0 ? gaugeUpliftKg : 0,
    meteredMassKg > 0 ? meteredMassKg : 0,
    1
  );
}
