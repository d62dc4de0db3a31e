import { orderByCodeAndTime, type SectorRows } from '#lib/core/sequence/index.ts';

/** One ticket in words of a test: minutes, codes from 1, kilograms. Left out is missing. */
export interface Given {
  readonly minute?: number;
  readonly station?: number;
  readonly tail?: number;
  readonly arrival?: number;
  readonly departure?: number;
  readonly vehicle?: number;
  readonly meterStart?: number;
  readonly meterStop?: number;
  readonly volume?: number;
}

const numbers = (given: readonly Given[], pick: (ticket: Given) => number | undefined): Float64Array =>
  Float64Array.from(given, (ticket) => pick(ticket) ?? NaN);

/** The tickets as columns; station and tail are 1 where the test does not say. */
export const rowsOf = (given: readonly Given[]): SectorRows => ({
  timeMs: numbers(given, ({ minute }) => (minute === undefined ? NaN : minute * 60_000)),
  station: Uint32Array.from(given, ({ station }) => station ?? 1),
  tail: Uint32Array.from(given, ({ tail }) => tail ?? 1),
  arrivalFuelKg: numbers(given, ({ arrival }) => arrival),
  departureFuelKg: numbers(given, ({ departure }) => departure),
  vehicle: Uint32Array.from(given, ({ vehicle }) => vehicle ?? 0),
  meterStartL: numbers(given, ({ meterStart }) => meterStart),
  meterStopL: numbers(given, ({ meterStop }) => meterStop),
  volumeL: numbers(given, ({ volume }) => volume)
});

export const tailOrder = (rows: SectorRows): Uint32Array => orderByCodeAndTime(rows.tail, rows.timeMs);
