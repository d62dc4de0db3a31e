import { clearCauseEvidence, type CauseEvidence } from '#lib/core/causes/index.ts';
import {
  addTicket,
  amountToAdd,
  createRefuellingInput,
  createRefuellingResult,
  createTicketInput,
  createTicketResult,
  reconcileRefuelling,
  reconcileTicket,
  totalOnBoard,
  type Method
} from '#lib/core/reconciliation/index.ts';
import type { Links } from '#lib/core/sequence/index.ts';
import type { Computed } from './computed.ts';
import type { InputReader } from './inputs.ts';

/** Rows around a refuelling that say something about it; -1 where there is none. */
export interface Neighbours {
  /** A refuelling of another tail, same station and time, with about the opposite discrepancy. */
  readonly opposite: number;
  /** A ticket at the same station and time that no gauge reading belongs to. */
  readonly stray: number;
}

/** An order was met by the gauges when they end within this of it. Common practice, no source. */
const orderMetKg = 225;

/**
 * An amount to add is often worked out on the form, from the total wanted and the arrival fuel typed. Where the gauge
 * readings meet it and the meter does not, it may only repeat a wrong arrival fuel: it then stands as the total it
 * was worked out from, so that it speaks neither for nor against the meter. So does an amount below zero.
 */
function settleOrder(out: CauseEvidence): void {
  if (out.orderedBasis !== amountToAdd) return;
  const totalKg = out.arrivalFuelKg + out.orderedKg;
  const isWorkedOut = out.orderedKg < 0 || Math.abs(out.departureFuelKg - totalKg) <= orderMetKg;
  if (!isWorkedOut || Math.abs(out.meteredMassKg - out.orderedKg) <= orderMetKg) return;
  out.orderedKg = totalKg;
  out.orderedBasis = totalOnBoard;
}

/** Gathers what a cause can use about one refuelling. Structures are reused from record to record. */
export class EvidenceReader {
  readonly #inputs: InputReader;
  readonly #computed: Computed;
  readonly #method: Method;
  readonly #chain: Links;
  readonly #nextOnTail: Int32Array;
  readonly #ticketInput = createTicketInput();
  readonly #ticket = createTicketResult();
  readonly #input = createRefuellingInput();
  readonly #result = createRefuellingResult();

  constructor(inputs: InputReader, computed: Computed, method: Method, chain: Links) {
    this.#inputs = inputs;
    this.#computed = computed;
    this.#method = method;
    this.#chain = chain;
    this.#nextOnTail = new Int32Array(computed.rowCount).fill(-1);
    const { previousOnTail } = chain;
    for (let row = 0; row < previousOnTail.length; row++) {
      const previous = previousOnTail[row] as number;
      if (previous >= 0 && computed.leader[row] === row) this.#nextOnTail[previous] = row;
    }
  }

  /** Fills `out` with all that is known of the refuelling led by `leader`, whose tickets are `tickets`. */
  read(leader: number, tickets: readonly number[], around: Neighbours, out: CauseEvidence): void {
    clearCauseEvidence(out);
    this.#inputs.startRefuelling(leader, this.#input);
    for (const row of tickets) {
      this.#inputs.readTicket(row, this.#ticketInput);
      reconcileTicket(this.#ticketInput, this.#method, this.#ticket);
      addTicket(this.#input, this.#ticket);
      this.#inputs.mergeGauges(row, this.#input);
    }
    reconcileRefuelling(this.#input, this.#method, this.#result);
    this.#fillRefuelling(out);
    settleOrder(out);
    if (tickets.length === 1) this.#fillTicket(leader, out);
    this.#fillChain(leader, out);
    this.#fillNeighbours(tickets, around, out);
  }

  #fillRefuelling(out: CauseEvidence): void {
    const input = this.#input;
    const result = this.#result;
    out.tickets = input.tickets;
    out.meteredMassKg = result.meteredMassKg;
    out.gaugeUpliftKg = result.gaugeUpliftKg;
    out.arrivalFuelKg = input.arrivalFuelKg;
    out.departureFuelKg = input.departureFuelKg;
    out.groundBurnKg = input.groundBurnKg;
    out.defuelledKg = input.defuelledKg;
    out.gaugeStepKg = input.gaugeStepKg;
    out.orderedKg = input.orderedKg;
    out.orderedBasis = input.orderedBasis;
    out.recordedUpliftKg = input.recordedUpliftKg;
    out.tanksAfterKg = input.tanksAfterKg;
    out.leftAfterKg = input.leftAfterKg;
    out.rightAfterKg = input.rightAfterKg;
    out.stickFuelKg = input.stickFuelKg;
    out.capacityKg = input.gaugeCapacityKg;
    const gauge = result.gaugeUncertaintyKg;
    const own = Math.sqrt(result.massUncertaintyKg ** 2 + (Number.isFinite(gauge) ? gauge : 0) ** 2);
    out.ownUncertaintyKg = own;
  }

  /** What belongs to one ticket; a refuelling of several has no single figure that was typed. */
  #fillTicket(row: number, out: CauseEvidence): void {
    const input = this.#ticketInput;
    out.meteredTyped = input.grossVolumeL;
    out.volumeL = this.#ticket.volumeL;
    out.netVolumeL = input.netVolumeL;
    out.densityAtMeterKgM3 = this.#ticket.densityAtMeterKgM3;
    out.observedDensityKgM3 = input.observedDensityKgM3;
    out.ticketDensity15KgM3 = input.ticketDensity15KgM3;
    out.certificateDensity15KgM3 = input.certificateDensity15KgM3;
    out.sampleTemperatureC = input.sampleTemperatureC;
    out.meterTemperatureC = input.meterTemperatureC;
    out.meterStartL = input.meterStartL;
    out.meterStopL = input.meterStopL;
    out.meterRegisterL = input.meterRegisterL;
    const before = this.#chain.previousOnMeter[row] ?? -1;
    if (before < 0) return;
    this.#inputs.readTicket(before, this.#ticketInput);
    out.previousVolumeL = this.#computed.volumeL[before] ?? NaN;
    out.previousMeterStopL = this.#ticketInput.meterStopL;
  }

  #fillChain(leader: number, out: CauseEvidence): void {
    const before = this.#chain.previousOnTail[leader] ?? -1;
    const after = this.#nextOnTail[leader] ?? -1;
    if (before >= 0) out.previousDepartureKg = this.#inputs.departureFuelKg(before);
    if (after >= 0) out.nextArrivalKg = this.#inputs.arrivalFuelKg(after);
  }

  #fillNeighbours(tickets: readonly number[], around: Neighbours, out: CauseEvidence): void {
    const { volumeL, meteredMassKg, discrepancyKg } = this.#computed;
    for (let i = 1; i < tickets.length; i++) {
      const [earlier = -1, later = -1] = tickets.slice(i - 1, i + 1);
      if (volumeL[earlier] !== volumeL[later]) continue;
      out.minutesToDuplicate = this.#inputs.minutesBetween(earlier, later);
      out.duplicateMassKg = meteredMassKg[later] ?? NaN;
    }
    if (around.opposite >= 0) out.otherTailDiscrepancyKg = discrepancyKg[around.opposite] ?? NaN;
    if (around.stray >= 0) out.strayTicketKg = meteredMassKg[around.stray] ?? NaN;
  }
}
