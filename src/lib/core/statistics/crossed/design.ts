import { filled, stretches, type Steps } from '../steps.ts';

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

function* usableRecords(records: CrossedRecords): Steps<Int32Array> {
  const { a, b, y, weights } = records;
  const n = y.length;
  if (a.length !== n || b.length !== n || (weights !== undefined && weights.length !== n)) {
    throw new RangeError(`records: ${a.length}, ${b.length} and ${n} entries, need the same number`);
  }
  const usable = new Int32Array(n);
  let count = 0;
  yield* stretches(n, (from, to) => {
    for (let k = from; k < to; k += 1) {
      const weight = weights === undefined ? 1 : (weights[k] ?? NaN);
      const present = (a[k] ?? -1) >= 0 && (b[k] ?? -1) >= 0 && weight > 0 && weight < Infinity;
      if (present && Number.isFinite(y[k])) usable[count++] = k;
    }
  });
  return usable.subarray(0, count);
}

/** Codes renumbered from 0 without holes, in ascending order. */
function* compactCodes(
  codes: ArrayLike<number>,
  records: Int32Array
): Steps<{ code: Int32Array; levels: Int32Array }> {
  const code = yield* filled(new Int32Array(records.length), (i) => codes[records[i] as number] ?? -1);
  let most = -1;
  yield* stretches(code.length, (from, to) => {
    for (let i = from; i < to; i += 1) most = Math.max(most, code[i] as number);
  });
  const place = new Int32Array(most + 1).fill(-1);
  yield* stretches(code.length, (from, to) => {
    for (let i = from; i < to; i += 1) place[code[i] as number] = 0;
  });
  const levels = Int32Array.from(
    Array.from(place, (_, level) => level).filter((level) => place[level] === 0)
  );
  levels.forEach((level, i) => (place[level] = i));
  return { code: yield* filled(code, (i) => place[code[i] as number] ?? -1), levels };
}

/** Stable counting sort: the items ordered by their key. */
function* orderBy(key: Int32Array, keys: number, items: Int32Array): Steps<Int32Array> {
  const start = new Int32Array(keys + 1);
  yield* stretches(items.length, (from, to) => {
    for (let i = from; i < to; i += 1) {
      const after = (key[items[i] as number] as number) + 1;
      start[after] = (start[after] as number) + 1;
    }
  });
  for (let i = 0; i < keys; i += 1) start[i + 1] = (start[i + 1] as number) + (start[i] as number);
  const ordered = new Int32Array(items.length);
  yield* stretches(items.length, (from, to) => {
    for (let i = from; i < to; i += 1) {
      const item = items[i] as number;
      const group = key[item] as number;
      const at = start[group] as number;
      ordered[at] = item;
      start[group] = at + 1;
    }
  });
  return ordered;
}

function* buildCells(
  small: Int32Array,
  large: Int32Array,
  smallCount: number,
  largeCount: number
): Steps<Pick<Design, 'cell' | 'cellStart' | 'cellSmall'>> {
  const n = small.length;
  const all = yield* filled(new Int32Array(n), (k) => k);
  const bySmall = yield* orderBy(small, smallCount, all);
  const ordered = yield* orderBy(large, largeCount, bySmall);
  const cell = new Int32Array(n);
  const cellStart = new Int32Array(largeCount + 1);
  const cellSmall = new Int32Array(n);
  let cells = 0;
  let before = -1;
  yield* stretches(n, (from, to) => {
    for (let i = from; i < to; i += 1) {
      const k = ordered[i] as number;
      const key = (large[k] as number) * smallCount + (small[k] as number);
      if (key !== before) {
        cellSmall[cells] = small[k] as number;
        cells += 1;
        cellStart[(large[k] as number) + 1] = cells;
        before = key;
      }
      cell[k] = cells - 1;
    }
  });
  return { cell, cellStart, cellSmall: cellSmall.slice(0, cells) };
}

export function* buildDesign(records: CrossedRecords): Steps<Design> {
  const record = yield* usableRecords(records);
  const a = yield* compactCodes(records.a, record);
  const b = yield* compactCodes(records.b, record);
  const swapped = b.levels.length < a.levels.length;
  const [small, large] = swapped ? [b, a] : [a, b];
  return {
    record,
    small: small.code,
    large: large.code,
    ...(yield* buildCells(small.code, large.code, small.levels.length, large.levels.length)),
    y: yield* filled(new Float64Array(record.length), (i) => records.y[record[i] as number] ?? NaN),
    weights: yield* filled(new Float64Array(record.length), (i) =>
      records.weights === undefined ? 1 : (records.weights[record[i] as number] ?? NaN)
    ),
    smallLevels: small.levels,
    largeLevels: large.levels,
    swapped
  };
}
