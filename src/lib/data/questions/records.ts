import {
  addressText,
  computedReader,
  sourceReader,
  type RecordFilter,
  type RecordValue,
  type ValueReader
} from '#lib/data/ledger/index.ts';
import { computedNamed, splitKey, type ColumnKey, type ComputedName } from '#lib/data/record/index.ts';
import type { QuestionContext } from './context.ts';

/** A column of the grid: a source column by its key, or a computed one by its name. */
export type GridKey = ColumnKey | ComputedName;

export interface RecordOrder {
  readonly key: GridKey;
  readonly descending: boolean;
}

/** Which records, in which order. */
export interface RecordList {
  readonly filter: RecordFilter;
  readonly order: RecordOrder | null;
  /** Text to find in tickets; '' for all. */
  readonly ticket: string;
}

export interface RecordsQuestion extends RecordList {
  readonly columns: readonly GridKey[];
  readonly start: number;
  readonly count: number;
}

export interface GridRow {
  readonly address: string;
  readonly values: readonly RecordValue[];
}

export interface RecordsAnswer {
  /** Records that the filter and the ticket search let through. */
  readonly total: number;
  readonly refuellings: number;
  readonly start: number;
  readonly rows: readonly GridRow[];
}

function isComputed(key: GridKey): key is ComputedName {
  return computedNamed(key) !== undefined;
}

function readerOf(context: QuestionContext, key: GridKey): ValueReader {
  if (isComputed(key)) return computedReader(context.ledger, key, context.settings);
  splitKey(key);
  return sourceReader(context.ledger, key);
}

/** Numbers for sorting: missing last either way, texts by their rank among the texts in use. */
function sortKeys(read: ValueReader, rows: Uint32Array): Float64Array {
  const keys = new Float64Array(rows.length);
  const texts = new Map<string, number>();
  let isText = false;
  for (let i = 0; i < rows.length; i++) {
    const value = read(rows[i] ?? 0);
    if (typeof value === 'number') keys[i] = value;
    else {
      isText = true;
      if (!texts.has(value)) texts.set(value, texts.size);
      keys[i] = value === '' ? NaN : (texts.get(value) ?? NaN);
    }
  }
  if (!isText) return keys;
  const ranked = [...texts.keys()].sort();
  const rankOf = new Float64Array(texts.size);
  ranked.forEach((text, rank) => (rankOf[texts.get(text) ?? 0] = rank));
  return keys.map((key) => (Number.isNaN(key) ? NaN : (rankOf[key] ?? NaN)));
}

function ordered(context: QuestionContext, rows: Uint32Array, order: RecordOrder): Uint32Array {
  const keys = sortKeys(readerOf(context, order.key), rows);
  const places = Uint32Array.from(rows, (_row, place) => place);
  const sign = order.descending ? -1 : 1;
  places.sort((a, b) => {
    const left = keys[a] ?? NaN;
    const right = keys[b] ?? NaN;
    if (Number.isNaN(left) || Number.isNaN(right))
      return Number(Number.isNaN(left)) - Number(Number.isNaN(right)) || a - b;
    return left === right ? a - b : sign * (left - right);
  });
  return places.map((place) => rows[place] ?? 0);
}

function withTicket(context: QuestionContext, rows: Uint32Array, text: string): Uint32Array {
  const wanted = text.toLowerCase();
  const tickets = context.ledger.source.columns.text('ticket');
  return rows.filter((row) => tickets.at(row).toLowerCase().includes(wanted));
}

/** Orders kept from one window of the grid to the next. */
const keptOrders = new WeakMap<QuestionContext, { key: string; rows: Uint32Array }>();

/** Rows of the records a list names, in its order. */
export function recordRows(context: QuestionContext, asked: RecordList): Uint32Array {
  const key = JSON.stringify([asked.filter, asked.order, asked.ticket]);
  const kept = keptOrders.get(context);
  if (kept?.key === key) return kept.rows;
  const selected = context.select(asked.filter).rows;
  const found = asked.ticket === '' ? selected : withTicket(context, selected, asked.ticket);
  const rows = asked.order === null ? found : ordered(context, found, asked.order);
  keptOrders.set(context, { key, rows });
  return rows;
}

/** A window of the records a filter lets through, in an order; equal keys stay in file order. */
export function records(context: QuestionContext, asked: RecordsQuestion): RecordsAnswer {
  const rows = recordRows(context, asked);
  const { leader } = context.ledger.computed;
  const window = rows.subarray(asked.start, asked.start + asked.count);
  const readers = asked.columns.map((column) => readerOf(context, column));
  let refuellings = 0;
  for (const row of rows) if (leader[row] === row) refuellings++;
  return {
    total: rows.length,
    refuellings,
    start: asked.start,
    rows: Array.from(window, (row) => ({
      address: addressText(context.ledger.source.addressOf(row)),
      values: readers.map((read) => read(row))
    }))
  };
}
