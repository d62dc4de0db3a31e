import type { Cursor } from './cursor.ts';
import { setClock, type TimeParts } from './parts.ts';

/** A clock after a date, or alone: `T14:30:05.5Z`, `14.30`, `14h30`, `2:30 pm`, `1430 UTC`. */
export function takeClockPart(cursor: Cursor, parts: TimeParts, alone = false): boolean {
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

const utcWords = new Set(['z', 'utc', 'gmt', 'ut', 'zulu']);
const localWords = new Set(['h', 'hrs', 'hr', 'uhr', 'lt', 'l', 'local', 'lcl', 'loc']);

/** The offset after a clock, if it states one. True when it took anything or stands at the end. */
export function takeOffset(cursor: Cursor, parts: TimeParts): boolean {
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
