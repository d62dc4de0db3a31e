export {
  bitOf,
  codesIn,
  densityCases,
  densityMethods,
  indexOf,
  limitBases,
  marks,
  orderedBases,
  qualities,
  reasons,
  verdicts
} from './codes.ts';
export type {
  DensityCase,
  DensityMethod,
  LimitBase,
  Mark,
  OrderedBasis,
  Quality,
  Reason,
  Verdict
} from './codes.ts';
export {
  amountToAdd,
  densitometer,
  estimated,
  hydrometer,
  inLine,
  markBits,
  measured,
  methodNotStated,
  notJudged,
  notReconcilable,
  outside,
  reasonBits,
  totalOnBoard,
  within
} from './bits.ts';
export { defaultMethod } from './method.ts';
export type { Method, Plausibility } from './method.ts';
export { defaultUncertainty, uncertaintyDefaults } from './uncertainty-settings.ts';
export type { Basis, UncertaintyDefault, UncertaintySettings } from './uncertainty-settings.ts';
export { clearTicketInput, createTicketInput, createTicketResult } from './ticket-structs.ts';
export type { TicketInput, TicketResult } from './ticket-structs.ts';
export { reconcileTicket } from './ticket.ts';
export {
  addTicket,
  clearRefuellingInput,
  createRefuellingInput,
  createRefuellingResult
} from './refuelling-structs.ts';
export type { RefuellingInput, RefuellingResult } from './refuelling-structs.ts';
export { reconcileRefuelling } from './refuelling.ts';
export { createJudgement, judge, judgeDistance, judgeRange } from './judge.ts';
export type { Judgement, Limit } from './judge.ts';
