export { causeCodes, causeFigures, causeKinds, causeOutcomes, groupCauseCodes } from './codes.ts';
export type { CauseCode, CauseFigure, CauseKind, CauseOutcome, GroupCauseCode } from './codes.ts';
export { causeFacts, groupCauseKinds } from './facts.ts';
export type { CauseFacts } from './facts.ts';
export { clearCauseEvidence, createCauseEvidence } from './evidence.ts';
export type { CauseEvidence } from './evidence.ts';
export { defaultCauseOptions } from './options.ts';
export type { CauseOptions, Chances, SlipRule } from './options.ts';
export { createCauseProposals, discrepancyIf, percentIf } from './proposals.ts';
export type { CauseProposals } from './proposals.ts';
export { proposeCauses } from './propose.ts';
export { isSuspectedSlip } from './slip.ts';
export { isWild } from './wild.ts';
export { causeSigns, isWorthLooking, signsOf } from './signs.ts';
export type { CauseSign } from './signs.ts';
export {
  certificateCause,
  defaultDensityCause,
  fahrenheitCause,
  fewestForGroupCause,
  groundBurnCause,
  instrumentCause,
  sameSide,
  temperatureCause,
  type AtPlace,
  type GroupCause,
  type SameSide
} from './group-causes.ts';
