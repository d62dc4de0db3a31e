import { dayNumber, firstYear, fullYear, lastYear } from './calendar.ts';
import { isWeekday, monthNamed } from './month-names.ts';

/**
 * How the date in a cell is written. `ymd`: year, month and day are plain. `numeric`: two numbers, then a year of
 * four digits. `short`: three numbers of at most two digits. `serial`: a spreadsheet's day number. `clock`: a time
 * of day only. `bad`: none of these.
 */
export type TimeForm = 'ymd' | 'numeric' | 'short' | 'serial' | 'clock' | 'bad';
export type DateOrder = 'dmy' | 'mdy' | 'ymd';
export const dateOrders: readonly DateOrder[] = ['dmy', 'mdy', 'ymd'];

/** The parts of a date and clock as scanned; one object is reused for every cell. */
export interface TimeParts {
  form: TimeForm;
  a: number;
  b: number;
  c: number;
  /** The year was written with two digits. */
  twoDigitYear: boolean;
  serial: number;
  hasClock: boolean;
  /** Time of day in ms; a clock of 24:00 is the next midnight. */
  clockMs: number;
  /** Minutes ahead of UTC that the cell states, NaN where it states none. */
  offsetMinutes: number;
}

export function newTimeParts(): TimeParts {
  return {
    form: 'bad',
    a: NaN,
    b: NaN,
    c: NaN,
    twoDigitYear: false,
    serial: NaN,
    hasClock: false,
    clockMs: 0,
    offsetMinutes: NaN
  };
}

/** A cell longer than this is no date in any notation known here. */
const longestTime = 48;

/** Walks over one cell; each `take` moves on only if it finds what it looks for. */
class Cursor {
  at = 0;
  readonly text: string;
  #digits = 0;

  constructor(text: string) {
    this.text = text;
  }

  /** Digits of the last number taken. */
  digits(): number {
    return this.#digits;
  }

  get done(): boolean {
    return this.at >= this.text.length;
  }

  /** Nothing more is found in this cell. */
  fail(): false {
    this.at = -1;
    return false;
  }

  get next(): string {
    return this.text.charAt(this.at);
  }

  isDigit(): boolean {
    const code = this.text.charCodeAt(this.at);
    return code >= 48 && code <= 57;
  }

  /** The number at the cursor, NaN where there is none. */
  takeNumber(): number {
    let value = 0;
    const start = this.at;
    while (this.isDigit()) value = value * 10 + this.text.charCodeAt(this.at++) - 48;
    this.#digits = this.at - start;
    return this.#digits === 0 ? NaN : value;
  }

  /** Letters at the cursor, accents too. */
  takeWord(): string {
    const start = this.at;
    while (!this.done && isLetter(this.text.charCodeAt(this.at))) this.at++;
    return this.text.slice(start, this.at);
  }

  /** Takes one of the characters given; empty where none of them is next. */
  takeOne(of: string): string {
    if (this.done || !of.includes(this.next)) return '';
    return this.text.charAt(this.at++);
  }

  skipBlanks(): boolean {
    const start = this.at;
    while (!this.done && isBlank(this.text.charCodeAt(this.at))) this.at++;
    return this.at > start;
  }
}

function isLetter(code: number): boolean {
  return (
    (code >= 65 && code <= 90) ||
    (code >= 97 && code <= 122) ||
    (code >= 192 && code < 0x2000 && code !== 215)
  );
}

function isBlank(code: number): boolean {
  return code === 32 || code === 9 || code === 0xa0 || code === 0x202f || code === 0x2009;
}

/** Scans a cell into `parts`. Never throws; what is not a date or a clock has the form `bad`. */
export function scanTime(text: string, parts: TimeParts): void {
  parts.form = 'bad';
  forgetClock(parts);
  parts.twoDigitYear = false;
  if (text.length > longestTime || scanIso(text, parts)) return;
  const cursor = new Cursor(text.trim());
  const form = takeDate(cursor, parts);
  if (form === 'bad' || (form !== 'clock' && !cursor.done && !takeClockPart(cursor, parts))) return;
  if (cursor.done) parts.form = form;
}

/** Digits at `at`, -1 where one of them is none. */
function digitsAt(text: string, at: number, count: number): number {
  let value = 0;
  for (let i = at; i < at + count; i++) {
    const digit = text.charCodeAt(i) - 48;
    if (!(digit >= 0 && digit <= 9)) return -1;
    value = value * 10 + digit;
  }
  return value;
}

/** The notation most programs write, `2024-03-04T10:00[:00][Z]`, without the walk that others need. */
function scanIso(text: string, parts: TimeParts): boolean {
  let end = text.length;
  const isUtc = text.charCodeAt(end - 1) === 90;
  if (isUtc) end--;
  if (end !== 16 && end !== 19) return false;
  const divider = text.charCodeAt(10);
  if (text.charCodeAt(4) !== 45 || text.charCodeAt(7) !== 45 || (divider !== 84 && divider !== 32))
    return false;
  if (text.charCodeAt(13) !== 58 || (end === 19 && text.charCodeAt(16) !== 58)) return false;
  const year = digitsAt(text, 0, 4);
  const month = digitsAt(text, 5, 2);
  const day = digitsAt(text, 8, 2);
  const second = end === 19 ? digitsAt(text, 17, 2) : 0;
  if (year < 0 || month < 0 || day < 0) return false;
  if (!setClock(parts, digitsAt(text, 11, 2), digitsAt(text, 14, 2), second)) return false;
  if (isUtc) parts.offsetMinutes = 0;
  parts.form = setYmd(parts, year, month, day);
  return true;
}

function forgetClock(parts: TimeParts): void {
  parts.hasClock = false;
  parts.clockMs = 0;
  parts.offsetMinutes = NaN;
}

function takeDate(cursor: Cursor, parts: TimeParts): TimeForm {
  if (!cursor.isDigit()) return takeWordFirst(cursor, parts);
  const first = cursor.takeNumber();
  const digits = cursor.digits();
  if (digits === 8 || digits === 12 || digits === 14) return takeCompact(cursor, first, digits, parts);
  if (digits === 5 && (cursor.done || '.,'.includes(cursor.next))) return takeSerial(cursor, first, parts);
  const afterFirst = cursor.at;
  if (digits <= 2 || (digits <= 4 && cursor.done)) {
    cursor.at = 0;
    if (takeClockPart(cursor, parts, true)) return 'clock';
    forgetClock(parts);
    cursor.at = afterFirst;
  }
  if (digits === 4) return takeYearFirst(cursor, first, parts);
  return digits <= 2 ? takeYearLast(cursor, first, parts) : 'bad';
}

/** `Mar 12, 2024`, or a day of the week before any other date. */
function takeWordFirst(cursor: Cursor, parts: TimeParts): TimeForm {
  const word = cursor.takeWord();
  if (word === '') return 'bad';
  const month = monthNamed(word);
  const isDayName = isWeekday(word);
  cursor.takeOne('.,');
  cursor.skipBlanks();
  if (month === 0) return isDayName && cursor.isDigit() ? takeDate(cursor, parts) : 'bad';
  const separator = cursor.takeOne('-/');
  const day = cursor.takeNumber();
  if (cursor.digits() < 1 || cursor.digits() > 2) return 'bad';
  cursor.takeOne(separator === '' ? ',' : separator);
  cursor.skipBlanks();
  return setNamed(parts, cursor.takeNumber(), cursor.digits(), month, day);
}

/** `2024-03-12`, `2024/03/12`, `2024.03.12`, `2024-Mar-12`. */
function takeYearFirst(cursor: Cursor, year: number, parts: TimeParts): TimeForm {
  const separator = cursor.takeOne('-/. ');
  if (separator === '') return 'bad';
  const word = cursor.takeWord();
  const month = word === '' ? cursor.takeNumber() : monthNamed(word);
  if ((word === '' && cursor.digits() > 2) || cursor.takeOne(separator) === '') return 'bad';
  const day = cursor.takeNumber();
  if (cursor.digits() < 1 || cursor.digits() > 2) return 'bad';
  return setYmd(parts, year, month, day);
}

/** `12/03/2024`, `12.3.24`, `12-Mar-2024`, `12MAR24`. */
function takeYearLast(cursor: Cursor, first: number, parts: TimeParts): TimeForm {
  let separator = cursor.takeOne('-/.');
  if (cursor.skipBlanks() && separator === '') separator = ' ';
  const word = cursor.takeWord();
  if (word !== '') {
    cursor.takeOne('.');
    if (!cursor.isDigit()) cursor.takeOne('-/. ,');
    cursor.skipBlanks();
    return setNamed(parts, cursor.takeNumber(), cursor.digits(), monthNamed(word), first);
  }
  if (separator === '' || separator === ' ') return 'bad';
  const second = cursor.takeNumber();
  if (cursor.digits() < 1 || cursor.digits() > 2 || cursor.takeOne(separator) === '') return 'bad';
  cursor.skipBlanks();
  const third = cursor.takeNumber();
  if (cursor.digits() !== 4 && cursor.digits() !== 2) return 'bad';
  parts.a = first;
  parts.b = second;
  parts.c = third;
  parts.twoDigitYear = cursor.digits() === 2;
  return parts.twoDigitYear ? 'short' : 'numeric';
}

/** Eight digits are a date; twelve or fourteen have a clock too. */
function takeCompact(cursor: Cursor, value: number, digits: number, parts: TimeParts): TimeForm {
  const scale = digits === 8 ? 1 : digits === 12 ? 10_000 : 1_000_000;
  const date = Math.floor(value / scale);
  if (digits !== 8) {
    const clock = value - date * scale;
    const seconds = digits === 14 ? clock % 100 : 0;
    const hhmm = digits === 14 ? Math.floor(clock / 100) : clock;
    if (!setClock(parts, Math.floor(hhmm / 100), hhmm % 100, seconds)) return 'bad';
    takeOffset(cursor, parts);
  }
  const year = Math.floor(date / 10_000);
  if (year >= firstYear && year <= lastYear && Math.floor(date / 100) % 100 <= 12) {
    return setYmd(parts, year, Math.floor(date / 100) % 100, date % 100);
  }
  parts.a = Math.floor(date / 1_000_000);
  parts.b = Math.floor(date / 10_000) % 100;
  parts.c = date % 10_000;
  return 'numeric';
}

function takeSerial(cursor: Cursor, whole: number, parts: TimeParts): TimeForm {
  parts.serial = whole;
  if (cursor.done) return 'serial';
  cursor.at++;
  const fraction = cursor.takeNumber();
  if (cursor.digits() === 0 || cursor.digits() > 15) return 'bad';
  parts.serial = whole + fraction / 10 ** cursor.digits();
  parts.hasClock = true;
  return 'serial';
}

function setYmd(parts: TimeParts, year: number, month: number, day: number): TimeForm {
  parts.a = year;
  parts.b = month;
  parts.c = day;
  return 'ymd';
}

function setNamed(parts: TimeParts, year: number, digits: number, month: number, day: number): TimeForm {
  if (month === 0 || (digits !== 2 && digits !== 4)) return 'bad';
  parts.twoDigitYear = digits === 2;
  return setYmd(parts, digits === 2 ? fullYear(year) : year, month, day);
}

/** A clock after a date, or alone: `T14:30:05.5Z`, `14.30`, `14h30`, `2:30 pm`, `1430 UTC`. */
function takeClockPart(cursor: Cursor, parts: TimeParts, alone = false): boolean {
  cursor.takeOne(',');
  const hadBlank = cursor.skipBlanks();
  if (cursor.takeOne('Tt') === '' && !hadBlank && !alone) return false;
  const first = cursor.takeNumber();
  if (cursor.digits() === 3 || cursor.digits() === 4) {
    return finishClock(cursor, parts, Math.floor(first / 100), first % 100, 0);
  }
  if (cursor.digits() === 6 && !alone) {
    return finishClock(cursor, parts, Math.floor(first / 10_000), Math.floor(first / 100) % 100, first % 100);
  }
  if (cursor.digits() < 1 || cursor.digits() > 2) return false;
  const mark = cursor.takeOne(':.hH');
  if (mark === '') return takeBareHour(cursor, parts, first);
  const minute = cursor.takeNumber();
  if (cursor.digits() !== 2) return false;
  // Alone, 14.30.05 is as good a date as a clock; the date is tried then.
  const mayHaveSeconds = mark !== '.' || !alone;
  const hasSeconds = mayHaveSeconds && cursor.takeOne(mark === '.' ? '.' : ':') !== '';
  return finishClock(cursor, parts, first, minute, hasSeconds ? takeSeconds(cursor) : 0);
}

/** `2 pm`: an hour alone is a clock only with its half of the day. */
function takeBareHour(cursor: Cursor, parts: TimeParts, hour: number): boolean {
  cursor.skipBlanks();
  const before = cursor.at;
  const half = takeHalf(cursor);
  cursor.at = before;
  return half !== '' && finishClock(cursor, parts, hour, 0, 0);
}

function finishClock(
  cursor: Cursor,
  parts: TimeParts,
  hour: number,
  minute: number,
  second: number
): boolean {
  cursor.skipBlanks();
  const half = takeHalf(cursor);
  if (half !== '' && !(hour >= 1 && hour <= 12)) return false;
  const hour24 = half === '' ? hour : (hour % 12) + (half === 'p' ? 12 : 0);
  if (!setClock(parts, hour24, minute, second)) return false;
  takeOffset(cursor, parts);
  return cursor.done;
}

function takeSeconds(cursor: Cursor): number {
  const whole = cursor.takeNumber();
  if (cursor.digits() !== 2) return NaN;
  if (cursor.takeOne('.,') === '') return whole;
  const fraction = cursor.takeNumber();
  return cursor.digits() < 1 || cursor.digits() > 9 ? NaN : whole + fraction / 10 ** cursor.digits();
}

/** `a` or `p` where the cursor is at "am", "p.m." and the like. */
function takeHalf(cursor: Cursor): '' | 'a' | 'p' {
  const match = /^([ap])\.?\s?m\b\.?/i.exec(cursor.text.slice(cursor.at, cursor.at + 6));
  if (match === null) return '';
  cursor.at += match[0].length;
  cursor.skipBlanks();
  return match[1]?.toLowerCase() === 'p' ? 'p' : 'a';
}

function setClock(parts: TimeParts, hour: number, minute: number, second: number): boolean {
  const isClock =
    (hour >= 0 && hour <= 23 && minute >= 0 && minute <= 59 && second >= 0 && second < 60) ||
    (hour === 24 && minute === 0 && second === 0);
  if (!isClock) return false;
  parts.hasClock = true;
  parts.clockMs = Math.round(((hour * 60 + minute) * 60 + second) * 1000);
  return true;
}

const utcWords = new Set(['z', 'utc', 'gmt', 'ut', 'zulu']);
const localWords = new Set(['h', 'hrs', 'hr', 'uhr', 'lt', 'l', 'local', 'lcl', 'loc']);

/** The offset after a clock, if it states one. True when it took anything or stands at the end. */
function takeOffset(cursor: Cursor, parts: TimeParts): boolean {
  cursor.skipBlanks();
  const word = cursor.takeWord().toLowerCase();
  if (word !== '') {
    if (utcWords.has(word)) parts.offsetMinutes = 0;
    else if (!localWords.has(word)) {
      cursor.at -= word.length;
      return false;
    }
  }
  const sign = cursor.takeOne('+-\u2212');
  if (sign === '') return cursor.done;
  const hours = cursor.takeNumber();
  const digits = cursor.digits();
  let minutes = 0;
  if (digits === 4) minutes = hours % 100;
  else if (cursor.takeOne(':') !== '') minutes = cursor.takeNumber();
  const total = (digits === 4 ? Math.floor(hours / 100) : hours) * 60 + minutes;
  if ((digits !== 4 && digits > 2) || !(minutes <= 59 && total <= 14 * 60)) {
    return cursor.fail();
  }
  parts.offsetMinutes = sign === '+' ? total : -total;
  return true;
}

/**
 * The day number of scanned parts in an order, NaN where that is no date. A date whose order is plain is the same
 * in every order.
 */
export function dayOf(parts: TimeParts, order: DateOrder | null): number {
  const { a, b, c } = parts;
  if (parts.form === 'ymd') return dayNumber(a, b, c);
  if (parts.form === 'numeric') {
    return order === 'dmy' ? dayNumber(c, b, a) : order === 'mdy' ? dayNumber(c, a, b) : NaN;
  }
  if (parts.form !== 'short') return NaN;
  if (order === 'dmy') return dayNumber(fullYear(c), b, a);
  if (order === 'mdy') return dayNumber(fullYear(c), a, b);
  return order === 'ymd' ? dayNumber(fullYear(a), b, c) : NaN;
}

/** Day 1 of the 1904 system is day 1,463 of the 1900 system, which counts a 29 February 1900 that never was. */
const serialEpochs = { '1900': -25_569, '1904': -24_107 } as const;
export type SerialSystem = keyof typeof serialEpochs;

/** Milliseconds UTC of a spreadsheet's day number read as a clock without zone, NaN outside 1980 to 2099. */
export function serialMs(serial: number, system: SerialSystem): number {
  const days = serial + serialEpochs[system];
  // Day numbers carry a clock to about a microsecond: rounded to the millisecond.
  const ms = Math.round(days * 86_400_000);
  return days >= 3652 && days < 47_482 ? ms : NaN;
}
