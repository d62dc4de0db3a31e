import { dayMs, dayNumber } from '../times/index.ts';
import { cellLook } from '../tokeniser.ts';
import type { ByteScan } from './byte-scan.ts';

/** A double holds every whole number of this many digits, and their quotient by a power of ten is rounded once. */
const exactDigits = 15;
const powers = Float64Array.from({ length: exactDigits + 1 }, (_, power) => Number(`1e${power}`));

const space = 0x20;
const minus = 0x2d;
const zero = 0x30;

/**
 * Reads the cells of one column that are digits with or without a decimal mark, which nearly all are, to the doubles
 * that `scanNumber` gives; whatever else a cell may be is `other`. Cells stand `stride` places apart.
 */
export function scanNumbers(
  scan: ByteScan,
  first: number,
  stride: number,
  count: number,
  decimal: '.' | ',',
  values: Float64Array,
  looks: Uint8Array
): void {
  const { bytes, starts, ends } = scan;
  const mark = decimal.charCodeAt(0);
  for (let i = 0, place = first; i < count; i++, place += stride) {
    let at = starts[place] as number;
    let end = ends[place] as number;
    values[i] = NaN;
    while (at < end && bytes[at] === space) at++;
    if (at === end) {
      looks[i] = cellLook.empty;
      continue;
    }
    while (bytes[end - 1] === space) end--;
    const isNegative = bytes[at] === minus;
    if (isNegative) at++;
    const whole = at;
    let mantissa = 0;
    let digit = (bytes[at] as number) - zero;
    while (at < end && digit >= 0 && digit <= 9) {
      mantissa = mantissa * 10 + digit;
      digit = (bytes[++at] as number) - zero;
    }
    looks[i] = cellLook.other;
    const wholeDigits = at - whole;
    if (wholeDigits === 0 || wholeDigits > exactDigits) continue;
    if (at === end) {
      looks[i] = cellLook.digits;
      values[i] = isNegative ? -mantissa : mantissa;
      continue;
    }
    if (bytes[at] !== mark) continue;
    const fraction = ++at;
    digit = (bytes[at] as number) - zero;
    while (at < end && digit >= 0 && digit <= 9) {
      mantissa = mantissa * 10 + digit;
      digit = (bytes[++at] as number) - zero;
    }
    const places = at - fraction;
    if (at !== end || places === 0 || wholeDigits + places > exactDigits) continue;
    looks[i] = cellLook.marked;
    const value = mantissa / (powers[places] as number);
    values[i] = isNegative ? -value : value;
  }
}

const colon = 0x3a;
const letterT = 0x54;
const letterZ = 0x5a;
const minuteMs = 60_000;

/** Greater than any date written as one number. */
const noDigits = 1e8;

/** Two digits at `at`, far from any figure of a calendar where one is none. */
function pair(bytes: Uint8Array, at: number): number {
  const tens = (bytes[at] as number) - zero;
  const ones = (bytes[at + 1] as number) - zero;
  return tens >= 0 && tens <= 9 && ones >= 0 && ones <= 9 ? tens * 10 + ones : noDigits;
}

/**
 * Reads the cells of one column that are instants as most programs write them, `2024-03-04T10:00[:00][Z]` or with a
 * blank for the T; NaN for all others, which may be instants all the same. A day once read is known for the next.
 */
export function scanInstants(
  scan: ByteScan,
  first: number,
  stride: number,
  count: number,
  values: Float64Array,
  isUtc: Uint8Array
): void {
  const { bytes, starts, ends } = scan;
  let knownDate = -1;
  let knownDayMs = NaN;
  for (let i = 0, place = first; i < count; i++, place += stride) {
    const at = starts[place] as number;
    let end = ends[place] as number;
    values[i] = NaN;
    isUtc[i] = 0;
    if (end - at < 16) continue;
    const hasZone = bytes[end - 1] === letterZ;
    if (hasZone) end--;
    const length = end - at;
    if ((length !== 16 && length !== 19) || bytes[at + 4] !== minus || bytes[at + 7] !== minus) continue;
    const divider = bytes[at + 10];
    if ((divider !== letterT && divider !== space) || bytes[at + 13] !== colon) continue;
    if (length === 19 && bytes[at + 16] !== colon) continue;
    const date =
      (pair(bytes, at) * 100 + pair(bytes, at + 2)) * 10_000 +
      pair(bytes, at + 5) * 100 +
      pair(bytes, at + 8);
    const hour = pair(bytes, at + 11);
    const minute = pair(bytes, at + 14);
    const second = length === 19 ? pair(bytes, at + 17) : 0;
    if (hour > 23 || minute > 59 || second > 59) continue;
    if (date !== knownDate) {
      if (date >= noDigits) continue;
      knownDate = date;
      knownDayMs = dayNumber(Math.floor(date / 10_000), Math.floor(date / 100) % 100, date % 100) * dayMs;
    }
    values[i] = knownDayMs + (hour * 60 + minute) * minuteMs + second * 1000;
    isUtc[i] = hasZone ? 1 : 0;
  }
}
