import { dayNumber, fullYear } from './calendar.ts';
import type { DateOrder, TimeParts } from './parts.ts';

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
