import type { CauseEvidence } from './evidence.ts';
import type { CauseOptions } from './options.ts';

const square = (value: number): number => value * value;
const orElse = (value: number, other: number): number => (Number.isFinite(value) ? value : other);

/**
 * Whether causes are worth looking for: the log ratio is further from what is expected of the tail and meter than
 * `wildSd` standard deviations (instruments and typical scatter together), and the discrepancy is above the floor.
 * False where either half is missing: see `signsOf`. Allocates nothing; meant for every record.
 */
export function isWild(evidence: CauseEvidence, options: CauseOptions): boolean {
  const { meteredMassKg, gaugeUpliftKg } = evidence;
  const distanceKg = Math.abs(gaugeUpliftKg - meteredMassKg);
  if (!(distanceKg > options.wildFloorKg)) return false;
  if (!(meteredMassKg > 0) || !(gaugeUpliftKg > 0)) return true;
  const relative = orElse(evidence.relativeScatter, options.relativeScatter);
  const variance =
    square(relative) +
    (square(orElse(evidence.noiseKg, options.noiseKg)) + square(orElse(evidence.ownUncertaintyKg, 0))) /
      square(Math.max(meteredMassKg, gaugeUpliftKg));
  const residual = Math.log(gaugeUpliftKg / meteredMassKg) - orElse(evidence.expectedLogRatio, 0);
  return square(residual) > square(options.wildSd) * variance;
}
