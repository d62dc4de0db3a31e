import {
  dateOf,
  dayMs,
  dateOrders,
  dayOf,
  newTimeParts,
  scanTime,
  serialMs,
  type DateOrder,
  type SerialSystem
} from '../times/index.ts';
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

/** A date column whose order is to be settled. */
export interface DateCase {
  readonly evidence: TimeEvidence;
  readonly column: number;
  readonly header: string;
  /** The order that the header or the row of units states. */
  readonly stated: DateOrder | null;
  /** All date columns of the file. */
  readonly columns: readonly TimeEvidence[];
}

/** Settles order and serial system of a date column, or asks; null while a question is open. */
export function settleDates(dates: DateCase, asking: Asking): SettledDates | null {
  const { evidence } = dates;
  const order = settleOrder(dates, asking);
  const serial = evidence.serial === 0 ? null : askSerial(dates, asking);
  if (order === undefined || serial === undefined) return null;
  const ordered = order.order === null ? 0 : evidence.fits[order.order];
  const agree = evidence.plain + evidence.clockOnly + evidence.serial + ordered;
  return { ...order, serial, agree, disagree: evidence.cells - agree };
}

type SettledOrder = Pick<SettledDates, 'order' | 'proven'>;

/** The order by the evidence, or as a person would rather have it; else the answer to a question. */
function settleOrder(dates: DateCase, asking: Asking): SettledOrder | undefined {
  const { evidence, column } = dates;
  if (evidence.numeric + evidence.short === 0) return { order: null, proven: true };
  const shown = orderByEvidence(dates);
  const answer = shown === null ? askOrder(dates, asking) : asking.given(`dateOrder:${column}`);
  const given = dateOrders.find((order) => order === answer && evidence.fits[order] > 0);
  return given === undefined ? (shown ?? undefined) : { order: given, proven: true };
}

/** Proof in the column, then what its header states, then proof in another column; null where none of them holds. */
function orderByEvidence({ evidence, stated, columns }: DateCase): SettledOrder | null {
  const total = evidence.numeric + evidence.short;
  const own = ownOrder(evidence);
  if (own !== null) return evidence.fits[own] === total ? { order: own, proven: true } : null;
  if (dateOrders.some((order) => evidence.only[order] > 0)) return null;
  for (const order of [stated, fileOrder(columns, evidence.short > 0)]) {
    if (order !== null && evidence.fits[order] === total) return { order, proven: true };
  }
  const first = dateOrders.find((order) => evidence.fits[order] === total);
  return evidence.open === 0 && first !== undefined ? { order: first, proven: false } : null;
}

function askOrder({ evidence, column, header }: DateCase, asking: Asking): string | null {
  const orders = dateOrders.filter((order) => evidence.fits[order] > 0);
  const proofs = orders.flatMap((order) => evidence.onlySamples[order].slice(0, 1));
  const shown = [...proofs, ...evidence.openSamples].slice(0, 3);
  const isYearAsked = evidence.short > 0 && orders.includes('ymd');
  return asking.ask({
    id: `dateOrder:${column}`,
    kind: isYearAsked ? 'twoDigitYear' : 'dateOrder',
    column,
    about: header,
    count: evidence.numeric + evidence.short,
    readings: orders.map((order): Reading => wordedReading(order, readIn(shown, order, null)))
  });
}

function askSerial({ evidence, column, header }: DateCase, asking: Asking): SerialSystem | undefined {
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
