import { CodeColumn, ColumnSet, Dictionary, NumberColumn, TextColumn } from '#lib/data/columns/index.ts';
import type { StoredColumn } from './store.ts';

/** The columns of a set as plain arrays, copied so that the set may go on growing. */
export function packColumns(set: ColumnSet): StoredColumn[] {
  const packed: StoredColumn[] = [];
  for (const key of set.keys()) {
    const column = set.get(key);
    if (column?.kind === 'number') packed.push({ key, kind: 'number', values: column.values().slice() });
    if (column?.kind === 'code') {
      packed.push({
        key,
        kind: 'code',
        texts: [...column.dictionary.texts()],
        codes: column.codes().slice()
      });
    }
    if (column?.kind === 'text') {
      const { buffer, ends } = column.parts();
      packed.push({ key, kind: 'text', buffer: buffer.slice(), ends: ends.slice() });
    }
  }
  return packed;
}

/** The set that `packColumns` was given. */
export function unpackColumns(packed: readonly StoredColumn[]): ColumnSet {
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
