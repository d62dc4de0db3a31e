import { firstYear, fullYear, lastYear } from './calendar.ts';
import { takeClockPart, takeOffset } from './clock.ts';
import { Cursor } from './cursor.ts';
import { scanIso } from './iso.ts';
import { isWeekday, monthNamed, plainWord } from './month-names.ts';
import { forgetClock, setClock, setYmd, type TimeForm, type TimeParts } from './parts.ts';

/** A cell longer than this is no date in any notation known here. */
const longestTime = 48;

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
  const word = takeMonthWord(cursor, separator);
  if (word !== '') {
    cursor.takeOne('.');
    if (!cursor.isDigit()) cursor.takeOne('-/. ,');
    cursor.skipBlanks();
    takeJoiner(cursor);
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

const ordinals = new Set('st nd rd th er re ere eme o a'.split(' '));
const joiners = new Set('de del do of di'.split(' '));

/** The word after a day, which may be `1er` or `4th` and have a `de` before its month: `4 de marzo`. */
function takeMonthWord(cursor: Cursor, separator: string): string {
  let word = cursor.takeWord();
  const isOrdinal = separator === '' && ordinals.has(plainWord(word));
  if (!isOrdinal && !joiners.has(word.toLowerCase())) return word;
  cursor.skipBlanks();
  word = cursor.takeWord();
  if (!joiners.has(word.toLowerCase())) return word;
  cursor.skipBlanks();
  return cursor.takeWord();
}

/** The `de` before a year, if there is one. */
function takeJoiner(cursor: Cursor): void {
  const before = cursor.at;
  if (joiners.has(cursor.takeWord().toLowerCase())) cursor.skipBlanks();
  else cursor.at = before;
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

function setNamed(parts: TimeParts, year: number, digits: number, month: number, day: number): TimeForm {
  if (month === 0 || (digits !== 2 && digits !== 4)) return 'bad';
  parts.twoDigitYear = digits === 2;
  return setYmd(parts, digits === 2 ? fullYear(year) : year, month, day);
}
