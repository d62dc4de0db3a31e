import { dateOrders, dayOf, newTimeParts, scanTime, type DateOrder, type TimeParts } from '../times/index.ts';
import { keepSample, type CellSample } from './samples.ts';

/** What the cells of a column say about the way its dates and clocks are written. */
export interface TimeEvidence {
  cells: number;
  /** Cells that are neither a date nor a clock, or a date that does not exist in any order. */
  bad: number;
  /** Dates that are plain by themselves. */
  plain: number;
  clockOnly: number;
  serial: number;
  /** Dates whose order has to be known, by how the year is written. */
  numeric: number;
  short: number;
  twoDigitYears: number;
  /** Dates of the `numeric` and `short` kinds that each order can read. */
  readonly fits: Record<DateOrder, number>;
  /** Those that fit this order and no other, with the first of them. */
  readonly only: Record<DateOrder, number>;
  readonly onlySamples: Record<DateOrder, CellSample[]>;
  /** Dates that two orders read as two different days. */
  open: number;
  readonly openSamples: CellSample[];
  /** Dates with the year first that exist only if the day comes before the month. */
  dayBeforeMonth: number;
  /** The days of those, a bit each. */
  daysBeforeMonth: number;
  /** Dates without a clock, day numbers aside. */
  dateOnly: number;
  withClock: number;
  withOffset: number;
  /** Clocks without an offset. */
  bareClock: number;
  readonly samples: CellSample[];
  readonly badSamples: CellSample[];
}

export function newTimeEvidence(): TimeEvidence {
  return {
    cells: 0,
    bad: 0,
    plain: 0,
    clockOnly: 0,
    serial: 0,
    numeric: 0,
    short: 0,
    twoDigitYears: 0,
    fits: { dmy: 0, mdy: 0, ymd: 0 },
    only: { dmy: 0, mdy: 0, ymd: 0 },
    onlySamples: { dmy: [], mdy: [], ymd: [] },
    open: 0,
    openSamples: [],
    dayBeforeMonth: 0,
    daysBeforeMonth: 0,
    dateOnly: 0,
    withClock: 0,
    withOffset: 0,
    bareClock: 0,
    samples: [],
    badSamples: []
  };
}

const parts: TimeParts = newTimeParts();

/** Adds one cell. */
export function addTime(evidence: TimeEvidence, text: string, line: number): void {
  evidence.cells++;
  scanTime(text, parts);
  const isPlainDay = parts.form !== 'ymd' || !Number.isNaN(dayOf(parts, null));
  const isOrdered = parts.form === 'numeric' || parts.form === 'short';
  if (parts.form === 'bad' || !isPlainDay || (isOrdered && !addOrders(evidence, text, line))) {
    evidence.bad++;
    if (parts.form === 'ymd' && parts.b > 12 && parts.b <= 31 && parts.c <= 12) {
      evidence.dayBeforeMonth++;
      evidence.daysBeforeMonth |= 1 << parts.b;
    }
    keepSample(evidence.badSamples, line, text);
    return;
  }
  keepSample(evidence.samples, line, text);
  if (parts.form === 'ymd') evidence.plain++;
  if (parts.form === 'clock') evidence.clockOnly++;
  if (parts.form === 'serial') evidence.serial++;
  if (parts.form === 'numeric') evidence.numeric++;
  if (parts.form === 'short') evidence.short++;
  if (parts.twoDigitYear && parts.form !== 'clock' && parts.form !== 'serial') evidence.twoDigitYears++;
  if (!parts.hasClock && parts.form !== 'serial') evidence.dateOnly++;
  if (!parts.hasClock) return;
  evidence.withClock++;
  if (Number.isNaN(parts.offsetMinutes)) evidence.bareClock++;
  else evidence.withOffset++;
}

/** The same for a cell already read as an instant with the year first, once there are samples enough. */
export function addInstant(evidence: TimeEvidence, hasOffset: boolean): void {
  evidence.cells++;
  evidence.plain++;
  evidence.withClock++;
  if (hasOffset) evidence.withOffset++;
  else evidence.bareClock++;
}

/** Counts which orders read the date; false where none does. */
function addOrders(evidence: TimeEvidence, text: string, line: number): boolean {
  let fitting = 0;
  let last: DateOrder = 'dmy';
  let day = NaN;
  let isOpen = false;
  for (const order of dateOrders) {
    const inOrder = dayOf(parts, order);
    if (Number.isNaN(inOrder)) continue;
    if (fitting > 0 && inOrder !== day) isOpen = true;
    day = inOrder;
    last = order;
    fitting++;
    evidence.fits[order]++;
  }
  if (fitting === 1) {
    evidence.only[last]++;
    keepSample(evidence.onlySamples[last], line, text);
  }
  if (isOpen) {
    evidence.open++;
    keepSample(evidence.openSamples, line, text);
  }
  return fitting > 0;
}
