import { codesIn } from '#lib/core/reconciliation/index.ts';
import {
  gaugesOfRefuellings,
  sequenceBits,
  sequenceFlags,
  type SequenceFlag
} from '#lib/core/sequence/index.ts';
import { addressFrom, addressText } from '#lib/data/ledger/index.ts';
import { surroundingsOf } from './causes.ts';
import type { QuestionContext } from './context.ts';

/** One refuelling in the chain of its aircraft. */
export interface Sector {
  readonly address: string;
  readonly timeMs: number;
  readonly station: string;
  readonly arrivalFuelKg: number;
  readonly departureFuelKg: number;
  readonly meteredMassKg: number;
  readonly discrepancyKg: number;
  /** Arrival fuel less the departure fuel before: what the flight burnt, below zero; NaN for the first. */
  readonly changeKg: number;
  readonly flags: readonly SequenceFlag[];
}

/** The ticket before on the same meter. */
export interface MeterLink {
  readonly address: string;
  readonly timeMs: number;
  readonly previousStopL: number;
  readonly startL: number;
  /** Start here less stop there. */
  readonly gapL: number;
  readonly flags: readonly SequenceFlag[];
}

export interface SectorsAnswer {
  /** Refuellings of the aircraft around the one asked for, in order of time. */
  readonly sectors: readonly Sector[];
  /** Index of the one asked for. */
  readonly own: number;
  readonly meter: MeterLink | null;
  /** Refuellings that led up to this one in the same stay on the ground, itself first. */
  readonly stay: readonly string[];
}

/** Refuellings shown on either side. */
const reach = 3;
const meterFlagBits =
  sequenceBits.meterStartEqualsPreviousStop |
  sequenceBits.meterStartAbovePreviousStop |
  sequenceBits.meterStartBelowPreviousStop;

function rowsBefore(context: QuestionContext, leader: number): number[] {
  const { previousOnTail } = surroundingsOf(context).chain;
  const rows: number[] = [];
  for (let at = previousOnTail[leader] ?? -1; at >= 0 && rows.length < reach; at = previousOnTail[at] ?? -1)
    rows.unshift(at);
  return rows;
}

function rowsAfter(context: QuestionContext, leader: number): number[] {
  const { previousOnTail } = surroundingsOf(context).chain;
  const rows: number[] = [];
  for (let at = leader; rows.length < reach;) {
    const next = previousOnTail.indexOf(at);
    if (next < 0) break;
    at = context.ledger.computed.leader[next] ?? next;
    rows.push(at);
  }
  return rows;
}

/** The chain of a record's aircraft around it, and the ticket before it on its meter; null where none has it. */
export function sectors(context: QuestionContext, asked: { readonly address: string }): SectorsAnswer | null {
  const { ledger } = context;
  const { source, computed } = ledger;
  const address = addressFrom(asked.address);
  const row = address === null ? -1 : source.rowAt(address);
  if (row < 0) return null;
  const { chain } = surroundingsOf(context);
  const leader = computed.leader[row] ?? row;
  const before = rowsBefore(context, leader);
  const rows = [...before, leader, ...rowsAfter(context, leader)];
  const gauges = gaugesOfRefuellings(
    {
      arrivalFuelKg: source.columns.number('arrivalFuel').values(),
      departureFuelKg: source.columns.number('departureFuel').values()
    },
    computed.leader
  );
  const departureAt = (at: number): number => gauges.departureFuelKg[at] ?? NaN;
  const sectorAt = (at: number): Sector => {
    const arrivalFuelKg = gauges.arrivalFuelKg[at] ?? NaN;
    return {
      address: addressText(source.addressOf(at)),
      timeMs: source.columns.number('time').at(at),
      station: source.columns.code('station').text(at),
      arrivalFuelKg,
      departureFuelKg: departureAt(at),
      meteredMassKg: computed.refuellingMassKg[at] ?? NaN,
      discrepancyKg: computed.discrepancyKg[at] ?? NaN,
      changeKg: arrivalFuelKg - departureAt(chain.previousOnTail[at] ?? -1),
      flags: codesIn(sequenceFlags, (chain.flags[at] ?? 0) & ~meterFlagBits)
    };
  };
  return {
    sectors: rows.map(sectorAt),
    own: before.length,
    meter: meterLink(context, row),
    stay: stayOf(context, leader)
  };
}

function meterLink(context: QuestionContext, row: number): MeterLink | null {
  const { source } = context.ledger;
  const { chain } = surroundingsOf(context);
  const before = chain.previousOnMeter[row] ?? -1;
  if (before < 0) return null;
  const previousStopL = source.columns.number('meterStop').at(before);
  const startL = source.columns.number('meterStart').at(row);
  return {
    address: addressText(source.addressOf(before)),
    timeMs: source.columns.number('time').at(before),
    previousStopL,
    startL,
    gapL: startL - previousStopL,
    flags: codesIn(sequenceFlags, (chain.flags[row] ?? 0) & meterFlagBits)
  };
}

function stayOf(context: QuestionContext, leader: number): string[] {
  const { chain } = surroundingsOf(context);
  const found: string[] = [];
  for (let at = leader; at >= 0; at = chain.previousOnTail[at] ?? -1) {
    found.push(addressText(context.ledger.source.addressOf(at)));
    if (((chain.flags[at] ?? 0) & sequenceBits.continuesAtStation) === 0) break;
  }
  return found;
}
