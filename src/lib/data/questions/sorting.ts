import type { Column, TextColumn } from '#lib/data/columns/index.ts';
import type { ValueReader } from '#lib/data/ledger/index.ts';

/** What rows are sorted by: a number each, NaN last either way, and what parts those whose numbers are level. */
interface SortKeys {
  readonly keys: Float64Array;
  readonly parts: (a: number, b: number) => number;
}

const level = () => 0;

/** Bytes of a text that fit in a number exactly. */
const keyBytes = 6;

/** Texts by their UTF-8: the first bytes as a number, the rest where those are level. */
function textKeys(column: TextColumn, rows: Uint32Array): SortKeys {
  const keys = new Float64Array(rows.length);
  for (let i = 0; i < rows.length; i++) {
    const bytes = column.bytesAt(rows[i] ?? 0);
    let key = bytes.length === 0 ? NaN : 0;
    for (let at = 0; at < keyBytes; at++) key = key * 256 + (bytes[at] ?? 0);
    keys[i] = key;
  }
  return {
    keys,
    parts(a, b) {
      const left = column.bytesAt(rows[a] ?? 0);
      const right = column.bytesAt(rows[b] ?? 0);
      const shared = Math.min(left.length, right.length);
      for (let at = keyBytes; at < shared; at++) {
        const difference = (left[at] ?? 0) - (right[at] ?? 0);
        if (difference !== 0) return difference;
      }
      return left.length - right.length;
    }
  };
}

/** Other columns: numbers as they are, texts by their rank among the texts in use. */
function valueKeys(read: ValueReader, rows: Uint32Array): SortKeys {
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
  if (!isText) return { keys, parts: level };
  const ranked = [...texts.keys()].sort();
  const rankOf = new Float64Array(texts.size);
  ranked.forEach((text, rank) => (rankOf[texts.get(text) ?? 0] = rank));
  return { keys: keys.map((key) => (Number.isNaN(key) ? NaN : (rankOf[key] ?? NaN))), parts: level };
}

/**
 * Rows in the order of a column, missing values last either way, rows that are level in the order given. `column` is
 * the source column, where it is one; `reader` reads any.
 */
export function ordered(
  rows: Uint32Array,
  descending: boolean,
  column: Column | undefined,
  reader: () => ValueReader
): Uint32Array {
  const { keys, parts } = column?.kind === 'text' ? textKeys(column, rows) : valueKeys(reader(), rows);
  const places = new Uint32Array(rows.length);
  let present = 0;
  for (let i = 0; i < keys.length; i++) if (!Number.isNaN(keys[i] ?? NaN)) places[present++] = i;
  let last = present;
  for (let i = 0; i < keys.length; i++) if (Number.isNaN(keys[i] ?? NaN)) places[last++] = i;
  const sign = descending ? -1 : 1;
  places.subarray(0, present).sort((a, b) => {
    const left = keys[a] ?? 0;
    const right = keys[b] ?? 0;
    return left === right ? sign * parts(a, b) || a - b : sign * (left - right);
  });
  return places.map((place) => rows[place] ?? 0);
}
