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

/** Takes back what was found of a clock. */
export function forgetClock(parts: TimeParts): void {
  parts.hasClock = false;
  parts.clockMs = 0;
  parts.offsetMinutes = NaN;
}

/** Sets a date of which year, month and day are plain. */
export function setYmd(parts: TimeParts, year: number, month: number, day: number): TimeForm {
  parts.a = year;
  parts.b = month;
  parts.c = day;
  return 'ymd';
}

/** Sets the time of day; false where the figures are none. */
export function setClock(parts: TimeParts, hour: number, minute: number, second: number): boolean {
  const isClock =
    (hour >= 0 && hour <= 23 && minute >= 0 && minute <= 59 && second >= 0 && second < 60) ||
    (hour === 24 && minute === 0 && second === 0);
  if (!isClock) return false;
  parts.hasClock = true;
  parts.clockMs = Math.round(((hour * 60 + minute) * 60 + second) * 1000);
  return true;
}
