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
import { ordered } from './sorting.ts';

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
  const { order } = asked;
  const rows =
    order === null
      ? found
      : ordered(found, order.descending, context.ledger.source.columns.get(order.key), () =>
          readerOf(context, order.key)
        );
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
