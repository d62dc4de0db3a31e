import { indexOf } from '#lib/core/reconciliation/index.ts';
import { causeCodes, causeOutcomes } from './codes.ts';
import type { CauseEvidence } from './evidence.ts';
import { causeFacts } from './facts.ts';
import type { CauseOptions } from './options.ts';
import type { CauseProposals } from './proposals.ts';

const named = indexOf(causeOutcomes, 'named');
const cannotTell = indexOf(causeOutcomes, 'cannotTell');

const isSlip = (cause: number): boolean => {
  const code = causeCodes[cause];
  return code !== undefined && causeFacts[code].kind === 'slip';
};

/** Whether all causes that cannot be told apart are slips: then it is one, whichever. */
function areSlips(proposals: CauseProposals): boolean {
  for (let cause = 0; cause < causeCodes.length; cause++)
    if (proposals.group[cause] === 1 && !isSlip(cause)) return false;
  return true;
}

/**
 * A gross error that no gauge or meter fault explains. A gauge that hardly moved may be frozen, so an uplift of
 * about nothing is no slip.
 */
function isGross(evidence: CauseEvidence, options: CauseOptions): boolean {
  const { meteredMassKg, gaugeUpliftKg, capacityKg } = evidence;
  const { grossRatio, grossFloorKg, grossShareOfCapacity } = options.slip;
  const noiseKg = Number.isFinite(evidence.noiseKg) ? evidence.noiseKg : options.noiseKg;
  if (!(meteredMassKg > 0) || Math.abs(gaugeUpliftKg) <= 3 * noiseKg) return false;
  const distanceKg = Math.abs(gaugeUpliftKg - meteredMassKg);
  if (distanceKg <= grossFloorKg || distanceKg <= grossShareOfCapacity * capacityKg) return false;
  return gaugeUpliftKg > grossRatio * meteredMassKg || gaugeUpliftKg * grossRatio < meteredMassKg;
}

/**
 * Whether a record is a suspected slip: a cause that is a slip was named, or several that cannot be told apart are
 * all slips, or the error is gross. Bias of gauge or meter, ground burn and density practice are none: they have
 * other owners and stay in bias and scatter.
 *
 * Gross: gauge over metered beyond 2.5 or its inverse, and more than 500 kg and a tenth of the capacity. The
 * largest gauge faults published show the uplift within 1.6 (see `defaultCauseOptions`); all are settings.
 */
export function isSuspectedSlip(
  evidence: CauseEvidence,
  options: CauseOptions,
  proposals: CauseProposals
): boolean {
  if (proposals.outcome === named) return isSlip(proposals.cause);
  if (proposals.outcome === cannotTell) return areSlips(proposals);
  return isGross(evidence, options);
}
