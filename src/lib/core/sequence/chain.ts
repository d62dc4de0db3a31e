import { sequenceBits } from './flags.ts';
import type { TicketRows } from './join.ts';
import { gaugesOfRefuellings } from './join.ts';

/** Tickets as columns, with what ties a ticket to the one before it on its meter. */
export interface SectorRows extends TicketRows {
  readonly vehicle: Uint32Array;
  readonly meterStartL: Float64Array;
  readonly meterStopL: Float64Array;
  /** Any volume the ticket states, gross or net. */
  readonly volumeL: Float64Array;
}

export interface ChainSettings {
  /** Stops at one station within this time are one stay on the ground. */
  readonly windowMinutes: number;
  /** Fuel counts as risen above this. */
  readonly riseKg: number;
  /** Meter readings count as equal within this. */
  readonly meterToleranceL: number;
}

/** Common practice, no source: a gauge settles by 100 kg, a register is read to the litre. */
export const defaultChainSettings: ChainSettings = { windowMinutes: 90, riseKg: 100, meterToleranceL: 1 };

/** What stands before each row on its tail and on its meter. */
export interface Links {
  /** For every row the leader of the refuelling before its own on the tail, -1 where there is none. */
  readonly previousOnTail: Int32Array;
  /** For every row the row before it on its meter, -1 where there is none. */
  readonly previousOnMeter: Int32Array;
}

export interface Chain extends Links {
  /** Bits of `sequenceFlags`: those of the tail on leaders, those of the meter on every row. */
  readonly flags: Uint8Array;
}

/** Refuellings whose tickets state no volume, or none above 0, by leader. */
function leadersWithVolume(rows: SectorRows, leaders: Int32Array): Uint8Array {
  const hasVolume = new Uint8Array(leaders.length);
  for (let row = 0; row < leaders.length; row++) {
    if ((rows.volumeL[row] ?? NaN) > 0) hasVolume[leaders[row] ?? row] = 1;
  }
  return hasVolume;
}

function linkTails(rows: SectorRows, order: Uint32Array, leaders: Int32Array): Int32Array {
  const previousOnTail = new Int32Array(leaders.length).fill(-1);
  let current = -1;
  let before = -1;
  let tailBefore = -1;
  for (let i = 0; i < order.length; i++) {
    const row = order[i] as number;
    const tail = rows.tail[row] as number;
    const leader = leaders[row] as number;
    if (tail !== tailBefore) before = -1;
    else if (leader !== current) before = current;
    current = leader;
    tailBefore = tail;
    previousOnTail[row] = tail === 0 ? -1 : before;
  }
  return previousOnTail;
}

function linkMeters(rows: SectorRows, meterOrder: Uint32Array): Int32Array {
  const previousOnMeter = new Int32Array(meterOrder.length).fill(-1);
  let before = -1;
  let vehicleBefore = 0;
  for (let i = 0; i < meterOrder.length; i++) {
    const row = meterOrder[i] as number;
    const vehicle = rows.vehicle[row] as number;
    if (vehicle !== 0 && vehicle === vehicleBefore) previousOnMeter[row] = before;
    before = row;
    vehicleBefore = vehicle;
  }
  return previousOnMeter;
}

/** Gauge readings of a refuelling beside those of the one before it on the tail. */
function tailFlags(
  rows: SectorRows,
  row: number,
  previous: number,
  arrivalKg: number,
  previousDepartureKg: number,
  settings: ChainSettings
): number {
  const gapMs = (rows.timeMs[row] ?? NaN) - (rows.timeMs[previous] ?? NaN);
  const station = rows.station[row] ?? 0;
  const isSameStay =
    station !== 0 && station === rows.station[previous] && gapMs <= settings.windowMinutes * 60_000;
  let flags = isSameStay ? sequenceBits.continuesAtStation : 0;
  if (!isSameStay && arrivalKg === previousDepartureKg) flags |= sequenceBits.arrivalEqualsPreviousDeparture;
  if (arrivalKg - previousDepartureKg > settings.riseKg) flags |= sequenceBits.arrivalAbovePreviousDeparture;
  return flags;
}

function meterFlags(startL: number, previousStopL: number, toleranceL: number): number {
  const gapL = startL - previousStopL;
  if (gapL > toleranceL) return sequenceBits.meterStartAbovePreviousStop;
  if (gapL < -toleranceL) return sequenceBits.meterStartBelowPreviousStop;
  return Number.isNaN(gapL) ? 0 : sequenceBits.meterStartEqualsPreviousStop;
}

/**
 * Ties every refuelling to the one before it on its tail and every ticket to the one before it on its meter.
 * `tailOrder` and `meterOrder` come from `orderByCodeAndTime`, `leaders` from `joinRefuellings`.
 */
export function linkSectors(
  rows: SectorRows,
  leaders: Int32Array,
  tailOrder: Uint32Array,
  meterOrder: Uint32Array
): Links {
  return {
    previousOnTail: linkTails(rows, tailOrder, leaders),
    previousOnMeter: linkMeters(rows, meterOrder)
  };
}

/**
 * Ties every refuelling to the one before it on its tail and every ticket to the one before it on its meter, and
 * says what does not follow: arrival fuel equal to or above the previous departure fuel, fuel that rose without a
 * ticket, a meter that did not go on where it stopped. `tailOrder` and `meterOrder` come from `orderByCodeAndTime`,
 * `leaders` from `joinRefuellings`.
 */
export function chainSectors(
  rows: SectorRows,
  leaders: Int32Array,
  tailOrder: Uint32Array,
  meterOrder: Uint32Array,
  settings: ChainSettings
): Chain {
  const { previousOnTail, previousOnMeter } = linkSectors(rows, leaders, tailOrder, meterOrder);
  const gauges = gaugesOfRefuellings(rows, leaders);
  const hasVolume = leadersWithVolume(rows, leaders);
  const flags = new Uint8Array(leaders.length);
  for (let row = 0; row < leaders.length; row++) {
    let bits = 0;
    if (leaders[row] === row) {
      const arrivalKg = gauges.arrivalFuelKg[row] ?? NaN;
      const departureKg = gauges.departureFuelKg[row] ?? NaN;
      const previous = previousOnTail[row] ?? -1;
      if (previous >= 0) {
        bits |= tailFlags(rows, row, previous, arrivalKg, gauges.departureFuelKg[previous] ?? NaN, settings);
      }
      if (hasVolume[row] === 0 && departureKg - arrivalKg > settings.riseKg)
        bits |= sequenceBits.fuelRisenWithoutTicket;
    }
    const meter = previousOnMeter[row] ?? -1;
    if (meter >= 0) {
      bits |= meterFlags(
        rows.meterStartL[row] ?? NaN,
        rows.meterStopL[meter] ?? NaN,
        settings.meterToleranceL
      );
    }
    flags[row] = bits;
  }
  return { previousOnTail, previousOnMeter, flags };
}
