import {
  addTicket,
  createJudgement,
  createRefuellingInput,
  createRefuellingResult,
  createTicketInput,
  createTicketResult,
  defaultMethod,
  type Judgement,
  judge,
  type LimitBase,
  limitBases,
  measured,
  type Method,
  reconcileRefuelling,
  reconcileTicket,
  type RefuellingInput,
  type RefuellingResult,
  type TicketInput,
  type TicketResult
} from '#lib/core/reconciliation/index.ts';

/** A ticket of the given facts, reconciled into a fresh result. */
export function ticketOf(facts: Partial<TicketInput>, method: Partial<Method> = {}): TicketResult {
  const out = createTicketResult();
  reconcileTicket({ ...createTicketInput(), ...facts }, { ...defaultMethod, ...method }, out);
  return out;
}

/** A refuelling of the given tickets and aircraft facts. */
export function refuellingOf(
  tickets: readonly TicketResult[],
  facts: Partial<RefuellingInput>,
  method: Partial<Method> = {}
): RefuellingResult {
  const input = { ...createRefuellingInput(), ...facts };
  for (const ticket of tickets) addTicket(input, ticket);
  const out = createRefuellingResult();
  reconcileRefuelling(input, { ...defaultMethod, ...method }, out);
  return out;
}

/** A ticket whose mass is known, for cases published as masses. */
export const ticketOfMass = (meteredMassKg: number): TicketResult => ({
  ...createTicketResult(),
  meteredMassKg,
  massUncertaintyKg: 0,
  quality: measured
});

/** The verdict on a refuelling under one limit. */
export function judgementOf(
  result: RefuellingResult,
  departureFuelKg: number,
  base: LimitBase,
  percent: number,
  floorKg = NaN
): Judgement {
  const out = createJudgement();
  judge(
    result.discrepancyKg,
    result.meteredMassKg,
    result.expectedDepartureKg,
    departureFuelKg,
    { base: limitBases.indexOf(base), percent, floorKg },
    result.expandedUncertaintyKg,
    out
  );
  return out;
}
