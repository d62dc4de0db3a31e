import { rowsByCode } from '#lib/data/columns/index.ts';
import type { SourceRows } from './rows.ts';

/** Rows whose first and last instant are kept together. */
const blockRows = 1024;

/** Rows [first, end) of the ledger. */
interface RowRange {
  readonly first: number;
  readonly end: number;
}

/** The first index of [0, rows.length) at which ascending rows are `row` or more. */
function lowerBound(rows: Uint32Array, row: number): number {
  let low = 0;
  let high = rows.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((rows[middle] ?? 0) < row) low = middle + 1;
    else high = middle;
  }
  return low;
}

/**
 * Where rows of a period or of a station stand, so that a filter by either need not ask every row. Rows stay in the
 * order of their files; as files are mostly in the order of time, a period touches few blocks.
 */
export class RowIndex {
  readonly #rowCount: number;
  readonly #earliest: Float64Array;
  readonly #latest: Float64Array;
  readonly #stations: { readonly rows: Uint32Array; readonly starts: Uint32Array };

  constructor(source: SourceRows) {
    const { columns, rowCount } = source;
    const times = columns.valuesOf('time');
    const blocks = Math.ceil(rowCount / blockRows);
    this.#rowCount = rowCount;
    this.#earliest = new Float64Array(blocks).fill(Infinity);
    this.#latest = new Float64Array(blocks).fill(-Infinity);
    const all = new Uint32Array(rowCount);
    for (let row = 0; row < rowCount; row++) {
      all[row] = row;
      const block = Math.floor(row / blockRows);
      const time = times[row] ?? NaN;
      if (time < (this.#earliest[block] ?? NaN)) this.#earliest[block] = time;
      if (time > (this.#latest[block] ?? NaN)) this.#latest[block] = time;
    }
    const station = columns.code('station');
    this.#stations = rowsByCode(station.codes(), station.dictionary.size, all);
  }

  /** Ranges of rows, ascending, that hold every row with a time of [fromMs, untilMs), and perhaps others. */
  ranges(fromMs: number, untilMs: number): RowRange[] {
    const found: RowRange[] = [];
    for (let block = 0; block < this.#earliest.length; block++) {
      if (!((this.#earliest[block] ?? NaN) < untilMs && (this.#latest[block] ?? NaN) >= fromMs)) continue;
      const first = block * blockRows;
      const end = Math.min(first + blockRows, this.#rowCount);
      const last = found.at(-1);
      if (last?.end === first) found[found.length - 1] = { first: last.first, end };
      else found.push({ first, end });
    }
    return found;
  }

  /** The rows of a station by its code that lie in some ranges, ascending. */
  ofStation(code: number, ranges: readonly RowRange[]): Uint32Array[] {
    const { rows, starts } = this.#stations;
    const own = rows.subarray(starts[code] ?? 0, starts[code + 1] ?? 0);
    return ranges.map(({ first, end }) => own.subarray(lowerBound(own, first), lowerBound(own, end)));
  }
}
