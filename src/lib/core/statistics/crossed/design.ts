/** Records of a crossed layout: a level of each of two factors and a value. */
export interface CrossedRecords {
  /** Level codes from 0; negative = none, and the record is left out. */
  readonly a: ArrayLike<number>;
  readonly b: ArrayLike<number>;
  /** NaN = missing. */
  readonly y: ArrayLike<number>;
  /** Relative precisions: variance = sigma^2 / weight. 1 when left out; a record needs more than 0. */
  readonly weights?: ArrayLike<number>;
}

/**
 * The usable records with levels numbered without holes. The factor with fewer levels is `small`, the other `large`;
 * cells are the pairs that occur, ordered by large and then small level.
 */
export interface Design {
  /** Where each usable record stands in the input. */
  readonly record: Int32Array;
  readonly small: Int32Array;
  readonly large: Int32Array;
  readonly cell: Int32Array;
  readonly y: Float64Array;
  readonly weights: Float64Array;
  /** Level code of each level in the input. */
  readonly smallLevels: Int32Array;
  readonly largeLevels: Int32Array;
  /** Cells of large level b: cellStart[b] to cellStart[b + 1]. */
  readonly cellStart: Int32Array;
  readonly cellSmall: Int32Array;
  /** True where `small` is factor b of the input. */
  readonly swapped: boolean;
}

function usableRecords(records: CrossedRecords): Int32Array {
  const { a, b, y, weights } = records;
  const n = y.length;
  if (a.length !== n || b.length !== n || (weights !== undefined && weights.length !== n)) {
    throw new RangeError(`records: ${a.length}, ${b.length} and ${n} entries, need the same number`);
  }
  const usable = new Int32Array(n);
  let count = 0;
  for (let k = 0; k < n; k += 1) {
    const weight = weights === undefined ? 1 : (weights[k] ?? NaN);
    const present = (a[k] ?? -1) >= 0 && (b[k] ?? -1) >= 0 && weight > 0 && weight < Infinity;
    if (present && Number.isFinite(y[k])) usable[count++] = k;
  }
  return usable.subarray(0, count);
}

/** Codes renumbered from 0 without holes, in ascending order. */
function compactCodes(
  codes: ArrayLike<number>,
  records: Int32Array
): { code: Int32Array; levels: Int32Array } {
  let most = -1;
  for (const k of records) most = Math.max(most, codes[k] ?? -1);
  const place = new Int32Array(most + 1).fill(-1);
  for (const k of records) place[codes[k] ?? -1] = 0;
  const levels = Int32Array.from(
    Array.from(place, (_, level) => level).filter((level) => place[level] === 0)
  );
  levels.forEach((level, i) => (place[level] = i));
  return { code: records.map((k) => place[codes[k] ?? -1] ?? -1), levels };
}

/** Stable counting sort: the items ordered by their key. */
function orderBy(key: Int32Array, keys: number, items: Int32Array): Int32Array {
  const start = new Int32Array(keys + 1);
  for (const item of items)
    start[(key[item] as number) + 1] = (start[(key[item] as number) + 1] as number) + 1;
  for (let i = 0; i < keys; i += 1) start[i + 1] = (start[i + 1] as number) + (start[i] as number);
  const ordered = new Int32Array(items.length);
  for (const item of items) {
    const group = key[item] as number;
    const at = start[group] as number;
    ordered[at] = item;
    start[group] = at + 1;
  }
  return ordered;
}

function buildCells(
  small: Int32Array,
  large: Int32Array,
  smallCount: number,
  largeCount: number
): Pick<Design, 'cell' | 'cellStart' | 'cellSmall'> {
  const n = small.length;
  const bySmall = orderBy(
    small,
    smallCount,
    Int32Array.from({ length: n }, (_, k) => k)
  );
  const ordered = orderBy(large, largeCount, bySmall);
  const cell = new Int32Array(n);
  const cellStart = new Int32Array(largeCount + 1);
  const cellSmall = new Int32Array(n);
  let cells = 0;
  let before = -1;
  for (const k of ordered) {
    const key = (large[k] as number) * smallCount + (small[k] as number);
    if (key !== before) {
      cellSmall[cells] = small[k] as number;
      cells += 1;
      cellStart[(large[k] as number) + 1] = cells;
      before = key;
    }
    cell[k] = cells - 1;
  }
  return { cell, cellStart, cellSmall: cellSmall.slice(0, cells) };
}

export function buildDesign(records: CrossedRecords): Design {
  const record = usableRecords(records);
  const a = compactCodes(records.a, record);
  const b = compactCodes(records.b, record);
  const swapped = b.levels.length < a.levels.length;
  const [small, large] = swapped ? [b, a] : [a, b];
  return {
    record,
    small: small.code,
    large: large.code,
    ...buildCells(small.code, large.code, small.levels.length, large.levels.length),
    y: Float64Array.from(record, (k) => records.y[k] ?? NaN),
    weights: Float64Array.from(record, (k) =>
      records.weights === undefined ? 1 : (records.weights[k] ?? NaN)
    ),
    smallLevels: small.levels,
    largeLevels: large.levels,
    swapped
  };
}
