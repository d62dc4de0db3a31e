import { dateOf, dayMs } from '../times/calendar.ts';
import {
  dateOrders,
  dayOf,
  newTimeParts,
  scanTime,
  serialMs,
  type DateOrder,
  type SerialSystem
} from '../times/scan.ts';
import type { TimeEvidence } from '../evidence/time-evidence.ts';
import type { CellSample } from '../evidence/samples.ts';
import type { Reading, ReadingSample } from '../question.ts';
import { wordedReading, type Asking } from './asking.ts';

/** The order of a column's dates and what shows it. */
export interface SettledDates {
  readonly order: DateOrder | null;
  readonly proven: boolean;
  readonly serial: SerialSystem | null;
  readonly agree: number;
  readonly disagree: number;
}

/** The order that a column's own dates prove, null where none or several are proven. */
export function ownOrder(evidence: TimeEvidence): DateOrder | null {
  const proven = dateOrders.filter((order) => evidence.only[order] > 0);
  return proven.length === 1 ? (proven[0] ?? null) : null;
}

/** The order that all columns with proof share, of those that write the year alike. */
export function fileOrder(columns: readonly TimeEvidence[], isShort: boolean): DateOrder | null {
  const alike = columns.filter((column) => (isShort ? column.short : column.numeric) > 0);
  const proven = new Set(alike.map(ownOrder).filter((order) => order !== null));
  return proven.size === 1 ? ([...proven][0] ?? null) : null;
}

const monthWords = [
  'January',
  'February',
  'March',
  'April',
  'May',
  'June',
  'July',
  'August',
  'September',
  'October',
  'November',
  'December'
] as const;

/** A date in words that cannot be misread: 4 March 2024. */
export function dateWords(day: number): string {
  const { year, month, day: ofMonth } = dateOf(day);
  return `${ofMonth} ${monthWords[month - 1] ?? ''} ${year}`;
}

const parts = newTimeParts();

/** A time of day as hours and minutes, with seconds where it has them. */
export function clockWords(clockMs: number): string {
  const two = (value: number) => String(Math.floor(value)).padStart(2, '0');
  const seconds = Math.floor(clockMs / 1000) % 60;
  return `${two(clockMs / 3_600_000)}:${two((clockMs / 60_000) % 60)}${seconds === 0 ? '' : `:${two(seconds)}`}`;
}

/** A cell as a reading understands it, in words. */
export function timeWords(text: string, order: DateOrder | null, serial: SerialSystem | null): string {
  scanTime(text, parts);
  if (parts.form === 'clock') return clockWords(parts.clockMs);
  if (parts.form === 'serial') {
    const ms = serial === null ? NaN : serialMs(parts.serial, serial);
    if (Number.isNaN(ms)) return 'cannot be read';
    const day = Math.floor(ms / dayMs);
    return parts.hasClock ? `${dateWords(day)} ${clockWords(ms - day * dayMs)}` : dateWords(day);
  }
  const day = dayOf(parts, order);
  if (Number.isNaN(day)) return 'cannot be read';
  return parts.hasClock ? `${dateWords(day)} ${clockWords(parts.clockMs)}` : dateWords(day);
}

function readIn(
  samples: readonly CellSample[],
  order: DateOrder | null,
  serial: SerialSystem | null
): ReadingSample[] {
  return samples.map(({ line, text }) => ({ line, text, reading: timeWords(text, order, serial) }));
}

/** Settles order and serial system of a date column, or asks; null while a question is open. */
export function settleDates(
  evidence: TimeEvidence,
  column: number,
  header: string,
  columns: readonly TimeEvidence[],
  asking: Asking
): SettledDates | null {
  const order = settleOrder(evidence, column, header, columns, asking);
  const serial = evidence.serial === 0 ? null : askSerial(evidence, column, header, asking);
  if (order === undefined || serial === undefined) return null;
  const ordered = order.order === null ? 0 : evidence.fits[order.order];
  const agree = evidence.plain + evidence.clockOnly + evidence.serial + ordered;
  return { ...order, serial, agree, disagree: evidence.cells - agree };
}

type SettledOrder = Pick<SettledDates, 'order' | 'proven'>;

function settleOrder(
  evidence: TimeEvidence,
  column: number,
  header: string,
  columns: readonly TimeEvidence[],
  asking: Asking
): SettledOrder | undefined {
  const total = evidence.numeric + evidence.short;
  if (total === 0) return { order: null, proven: true };
  const own = ownOrder(evidence);
  const isShort = evidence.short > 0;
  const isMixed = own === null && dateOrders.some((order) => evidence.only[order] > 0);
  if (own !== null && evidence.fits[own] === total) return { order: own, proven: true };
  const shared = isMixed || own !== null ? null : fileOrder(columns, isShort);
  if (shared !== null && evidence.fits[shared] === total) return { order: shared, proven: true };
  const viable = dateOrders.filter((order) => evidence.fits[order] === total);
  const [first] = viable;
  if (!isMixed && evidence.open === 0 && first !== undefined) return { order: first, proven: false };
  const answer = askOrder(evidence, isShort, column, header, asking);
  const order = dateOrders.find((known) => known === answer);
  return order === undefined ? undefined : { order, proven: true };
}

function askOrder(
  evidence: TimeEvidence,
  isShort: boolean,
  column: number,
  header: string,
  asking: Asking
): string | null {
  const orders = dateOrders.filter((order) => evidence.fits[order] > 0);
  const proofs = orders.flatMap((order) => evidence.onlySamples[order].slice(0, 1));
  const shown = [...proofs, ...evidence.openSamples].slice(0, 3);
  const isYearAsked = isShort && orders.includes('ymd');
  return asking.ask({
    id: `dateOrder:${column}`,
    kind: isYearAsked ? 'twoDigitYear' : 'dateOrder',
    column,
    about: header,
    count: evidence.numeric + evidence.short,
    readings: orders.map((order): Reading => wordedReading(order, readIn(shown, order, null)))
  });
}

function askSerial(
  evidence: TimeEvidence,
  column: number,
  header: string,
  asking: Asking
): SerialSystem | undefined {
  const shown = evidence.samples.slice(0, 3);
  const answer = asking.ask({
    id: `serial:${column}`,
    kind: 'serial',
    column,
    about: header,
    count: evidence.serial,
    readings: [
      wordedReading('1900', readIn(shown, null, '1900')),
      wordedReading('1904', readIn(shown, null, '1904'))
    ]
  });
  return answer === '1900' || answer === '1904' ? answer : undefined;
}
