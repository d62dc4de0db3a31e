import {
  addTicket,
  createRefuellingInput,
  createRefuellingResult,
  createTicketInput,
  createTicketResult,
  reconcileRefuelling,
  reconcileTicket
} from '#lib/core/reconciliation/index.ts';
import { joinRefuellings, orderByCodeAndTime } from '#lib/core/sequence/index.ts';
import type { Settings } from '#lib/data/settings/index.ts';
import { createComputed, type Computed, type ComputedParts } from './computed.ts';
import { InputReader } from './inputs.ts';
import type { SourceRows } from './rows.ts';

/** For each row the next ticket of its refuelling, -1 at the last: the one that stands for it comes first. */
function ticketChains(leader: Int32Array): Int32Array {
  const next = new Int32Array(leader.length).fill(-1);
  for (let row = leader.length - 1; row >= 0; row--) {
    const first = leader[row] ?? row;
    if (first === row) continue;
    next[row] = next[first] ?? -1;
    next[first] = row;
  }
  return next;
}

/** The row that leads the refuelling of each row. A row set aside stays alone: it has no tail to be joined by. */
function leadersOf(
  source: SourceRows,
  windowMinutes: number,
  isSetAside: (row: number) => boolean,
  undone: ReadonlySet<number>
): Int32Array {
  const { columns } = source;
  const tail = columns.code('tail').codes().slice();
  for (let row = 0; row < tail.length; row++) if (isSetAside(row)) tail[row] = 0;
  const timeMs = columns.valuesOf('time');
  const rows = {
    timeMs,
    station: columns.code('station').codes(),
    tail,
    arrivalFuelKg: columns.valuesOf('arrivalFuel'),
    departureFuelKg: columns.valuesOf('departureFuel')
  };
  return joinRefuellings(rows, orderByCodeAndTime(tail, timeMs), { windowMinutes, undone });
}

function partsOf({ columns }: SourceRows): ComputedParts {
  return {
    tanks: columns.keys().some((key) => key.startsWith('tanksAfter:')),
    recordedUplift: columns.get('recordedUplift') !== undefined,
    recordedDiscrepancy: columns.get('recordedDiscrepancy') !== undefined
  };
}

/**
 * Reconciles every record: tickets to masses, tickets of one refuelling to one discrepancy. Rows set aside take no
 * part. One pass, nothing made per row.
 */
export function derive(
  source: SourceRows,
  settings: Settings,
  isSetAside: (row: number) => boolean,
  undone: ReadonlySet<number>
): Computed {
  const { arithmetic, joinMinutes } = settings.method;
  const computed = createComputed(source.rowCount, partsOf(source));
  const reader = new InputReader(source, settings);
  computed.leader.set(leadersOf(source, joinMinutes, isSetAside, undone));
  const next = ticketChains(computed.leader);
  const vehicles = source.columns.code('vehicle').codes();
  const ticketInput = createTicketInput();
  const ticket = createTicketResult();
  const input = createRefuellingInput();
  const result = createRefuellingResult();
  for (let row = 0; row < source.rowCount; row++) {
    if (computed.leader[row] !== row || isSetAside(row)) continue;
    reader.startRefuelling(row, input);
    let several = 0;
    for (let member = row; member >= 0; member = next[member] ?? -1) {
      reader.readTicket(member, ticketInput);
      reconcileTicket(ticketInput, arithmetic, ticket);
      computed.meteredMassKg[member] = ticket.meteredMassKg;
      computed.volumeL[member] = ticket.volumeL;
      computed.density15KgM3[member] = ticket.density15KgM3;
      computed.certificateDifferenceKgM3[member] = ticket.certificateDifferenceKgM3;
      computed.densityCase[member] = ticket.densityCase;
      addTicket(input, ticket);
      reader.mergeGauges(member, input);
      if (vehicles[member] !== vehicles[row]) several = 1;
    }
    reconcileRefuelling(input, arithmetic, result);
    for (let member = row; member >= 0; member = next[member] ?? -1) {
      computed.refuellingMassKg[member] = result.meteredMassKg;
      computed.gaugeUpliftKg[member] = result.gaugeUpliftKg;
      computed.discrepancyKg[member] = result.discrepancyKg;
      computed.expectedDepartureKg[member] = result.expectedDepartureKg;
      computed.uncertaintyKg[member] = result.expandedUncertaintyKg;
      computed.orderDifferenceKg[member] = result.orderDifferenceKg;
      computed.tankSplitKg[member] = result.tankSplitKg;
      computed.imbalanceKg[member] = result.imbalanceKg;
      computed.recordedUpliftDifferenceKg[member] = result.recordedUpliftDifferenceKg;
      computed.recordedDiscrepancyDifferenceKg[member] = result.recordedDiscrepancyDifferenceKg;
      computed.quality[member] = result.quality;
      computed.reasons[member] = result.reasons;
      computed.marks[member] = result.marks;
      computed.severalVehicles[member] = several;
    }
  }
  return computed;
}
