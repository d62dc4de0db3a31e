import {
  type Column,
  CodeColumn,
  ColumnSet,
  Dictionary,
  NumberColumn,
  TextColumn
} from '#lib/data/columns/index.ts';
import type { StoredColumn } from './store.ts';

function packColumn(key: string, column: Column, from: number, to: number): StoredColumn {
  if (column.kind === 'number') return { key, kind: 'number', values: column.values().slice(from, to) };
  if (column.kind === 'text') return { key, kind: 'text', ...column.partsOf(from, to) };
  const compact = column.compacted(from, to);
  return { key, kind: 'code', texts: [...compact.dictionary.texts()], codes: compact.codes() };
}

/**
 * Rows [from, to) of the columns of a set as plain arrays, each copied when it is taken so that the set may go on
 * growing. A dictionary holds only the texts of those rows.
 */
export function* packColumns(set: ColumnSet, from = 0, to = set.rowCount): Generator<StoredColumn> {
  for (const key of set.keys()) {
    const column = set.get(key);
    if (column !== undefined) yield packColumn(key, column, from, to);
  }
}

/** The set that `packColumns` was given. */
export function unpackColumns(packed: Iterable<StoredColumn>): ColumnSet {
  const set = new ColumnSet();
  for (const stored of packed) {
    if (stored.kind === 'number') set.put(stored.key, NumberColumn.of(stored.values));
    else if (stored.kind === 'text') set.put(stored.key, TextColumn.of(stored.buffer, stored.ends));
    else {
      const dictionary = new Dictionary();
      for (const text of stored.texts) dictionary.code(text);
      set.put(stored.key, CodeColumn.of(dictionary, stored.codes));
    }
  }
  return set;
}
