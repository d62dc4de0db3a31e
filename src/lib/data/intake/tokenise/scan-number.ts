import type { NumberMarks } from '../tokeniser.ts';

/** The longest text, blanks at both ends left out, that is read as a number. */
export const longestNumber = 64;

/** A double holds every whole number of this many digits, so a mantissa of them is exact. */
const exactDigits = 15;

// Powers of ten up to 1e22 are exact doubles: dividing an exact mantissa by one rounds once, as Number() does.
const exactPowers = Float64Array.from({ length: 23 }, (_, power) => Number(`1e${power}`));

const minus = 0x2d;
const space = 0x20;
const apostrophe = 0x27;
// A unit that is neither a digit nor any mark: NUL is never a part of a number.
const noNumber = 0;

const scratch = new Uint8Array(longestNumber);

/**
 * The number a text states in the marks given, NaN where it states none. Blanks at both ends do not count; then a
 * sign (`+`, `-` or U+2212), digits, and at most one decimal mark with digits after it. Group marks stand only between
 * groups of three digits before the decimal mark. A blank as group mark stands for U+0020, U+00A0, U+202F and U+2009,
 * an apostrophe for U+0027 and U+2019, since editions of the same locale differ in them. More than 15 significant
 * digits and exponents are refused unless `marks.machine` is set. The result is the double nearest to the decimal,
 * the same as Number() gives.
 */
export function scanNumber(text: string, marks: NumberMarks): number {
  const trimmed = text.trim();
  const length = trimmed.length;
  if (length > longestNumber) return NaN;
  for (let i = 0; i < length; i++) scratch[i] = plainUnit(trimmed.charCodeAt(i));
  return scanNumberBytes(scratch, 0, length, marks);
}

/** The same for ASCII bytes; a byte beyond ASCII makes it no number. */
export function scanNumberBytes(bytes: Uint8Array, from: number, to: number, marks: NumberMarks): number {
  let at = from;
  let end = to;
  while (at < end && isBlank(bytes[at] ?? 0)) at++;
  while (end > at && isBlank(bytes[end - 1] ?? 0)) end--;
  if (end - at > longestNumber) return NaN;
  return scanTrimmed(bytes, at, end, marks);
}

function scanTrimmed(bytes: Uint8Array, from: number, end: number, marks: NumberMarks): number {
  const decimal = marks.decimal.charCodeAt(0);
  const group = groupUnit(marks.group);
  let at = from;
  const sign = bytes[at] ?? 0;
  const negative = sign === minus;
  if (at < end && (negative || sign === 0x2b)) at++;

  let mantissa = 0;
  let digits = 0;
  let run = 0;
  let grouped = false;
  const first = at;
  for (; at < end; at++) {
    const unit = bytes[at] ?? 0;
    const digit = unit - 0x30;
    if (digit >= 0 && digit <= 9) {
      if (mantissa !== 0 || digit !== 0) digits++;
      if (digits <= exactDigits) mantissa = mantissa * 10 + digit;
      run++;
    } else if (unit === decimal) {
      break;
    } else if (unit === group) {
      // "0,801" can only be a decimal, so a zero never opens a grouped number.
      if (grouped ? run !== 3 : run < 1 || run > 3 || bytes[first] === 0x30) return NaN;
      grouped = true;
      run = 0;
    } else {
      return marks.machine === true && run > 0 && !grouped ? machineNumber(bytes, from, end, decimal) : NaN;
    }
  }
  if (grouped && run !== 3) return NaN;
  if (at === end) {
    if (run === 0) return NaN;
    if (digits > exactDigits) return marks.machine === true ? decimalNumber(bytes, from, end, marks) : NaN;
    return negative ? -mantissa : mantissa;
  }

  let scale = 0;
  let zeros = 0;
  if (++at === end) return NaN;
  for (; at < end; at++) {
    const digit = (bytes[at] ?? 0) - 0x30;
    if (digit < 0 || digit > 9) {
      return marks.machine === true && !grouped ? machineNumber(bytes, from, end, decimal) : NaN;
    }
    if (digit === 0) {
      zeros++;
      continue;
    }
    digits += mantissa === 0 ? 1 : zeros + 1;
    scale += zeros + 1;
    if (digits <= exactDigits) {
      mantissa = mantissa * (exactPowers[mantissa === 0 ? 0 : zeros + 1] ?? NaN) + digit;
    } else if (marks.machine !== true) {
      return NaN;
    }
    zeros = 0;
  }
  if (digits > exactDigits || scale >= exactPowers.length) return decimalNumber(bytes, from, end, marks);
  const value = mantissa / (exactPowers[scale] ?? NaN);
  return negative ? -value : value;
}

/** A number already known to be well formed, by way of text. */
function decimalNumber(bytes: Uint8Array, from: number, end: number, marks: NumberMarks): number {
  const decimal = marks.decimal.charCodeAt(0);
  let text = '';
  for (let i = from; i < end; i++) {
    const unit = bytes[i] ?? 0;
    if (unit === decimal) text += '.';
    else if ((unit >= 0x30 && unit <= 0x39) || unit === minus) text += String.fromCharCode(unit);
  }
  return Number(text);
}

/** A number with an exponent, NaN where it is none or too large for a double. */
function machineNumber(bytes: Uint8Array, from: number, end: number, decimal: number): number {
  let text = '';
  let exponents = 0;
  for (let i = from; i < end; i++) {
    const unit = bytes[i] ?? 0;
    const exponent = unit === 0x65 || unit === 0x45;
    const sign = unit === minus || unit === 0x2b;
    if (exponent) exponents++;
    else if (!sign && unit !== decimal && (unit < 0x30 || unit > 0x39)) return NaN;
    text += unit === decimal ? '.' : String.fromCharCode(unit);
  }
  const value = exponents === 1 ? Number(text) : NaN;
  return Number.isFinite(value) ? value : NaN;
}

function isBlank(unit: number): boolean {
  return unit === space || (unit >= 9 && unit <= 13);
}

/** The unit of a group mark, one that no unit equals where there is none. */
function groupUnit(mark: string | null): number {
  const unit = mark === null ? noNumber : plainUnit(mark.charCodeAt(0));
  return unit === noNumber ? -1 : unit;
}

/** The ASCII unit that a code unit of a number counts as, NUL where it is part of none. */
function plainUnit(unit: number): number {
  if (unit < 0x80) return unit;
  if (unit === 0xa0 || unit === 0x202f || unit === 0x2009) return space;
  if (unit === 0x2019) return apostrophe;
  return unit === 0x2212 ? minus : noNumber;
}
