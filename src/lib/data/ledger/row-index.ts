import { rowsByCode } from '#lib/data/columns/index.ts';
import type { SourceRows } from './rows.ts';

/** Files are mostly in order of time; where rows are in more runs than this a period is looked for row by row. */
const mostRuns = 256;

/** Rows [first, end) of the ledger. */
interface RowRange {
  readonly first: number;
  readonly end: number;
}

/** The first index of [from, to) at which an ascending `at` is `value` or more. */
function lowerBound(at: (index: number) => number, from: number, to: number, value: number): number {
  let low = from;
  let high = to;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (at(middle) < value) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** Where rows of a period or of a station stand, so that a filter by either need not ask every row. */
export class RowIndex {
  readonly #times: Float64Array;
  readonly #runs: readonly RowRange[];
  readonly #stations: { readonly rows: Uint32Array; readonly starts: Uint32Array };

  constructor(source: SourceRows) {
    const { columns, rowCount } = source;
    this.#times = columns.valuesOf('time');
    this.#runs = runsOf(this.#times, rowCount);
    const station = columns.code('station');
    const all = new Uint32Array(rowCount);
    for (let row = 0; row < rowCount; row++) all[row] = row;
    this.#stations = rowsByCode(station.codes(), station.dictionary.size, all);
  }

  /** Ranges of rows, ascending, that hold every row with a time of [fromMs, untilMs), and perhaps others. */
  ranges(fromMs: number, untilMs: number): RowRange[] {
    const at = (row: number) => this.#times[row] ?? NaN;
    if (this.#runs.length > mostRuns) return [{ first: 0, end: this.#times.length }];
    return this.#runs
      .map(({ first, end }) => ({
        first: lowerBound(at, first, end, fromMs),
        end: lowerBound(at, first, end, untilMs)
      }))
      .filter(({ first, end }) => first < end);
  }

  /** The rows of a station by its code that lie in some ranges, ascending. */
  *ofStation(code: number, ranges: readonly RowRange[]): Generator<Uint32Array> {
    const { rows, starts } = this.#stations;
    const own = rows.subarray(starts[code] ?? 0, starts[code + 1] ?? 0);
    const at = (index: number) => own[index] ?? NaN;
    for (const { first, end } of ranges) {
      yield own.subarray(lowerBound(at, 0, own.length, first), lowerBound(at, 0, own.length, end));
    }
  }
}

function runsOf(times: Float64Array, rowCount: number): RowRange[] {
  const runs: RowRange[] = [];
  let first = 0;
  for (let row = 1; row <= rowCount; row++) {
    if (row < rowCount && (times[row] ?? NaN) >= (times[row - 1] ?? NaN)) continue;
    runs.push({ first, end: row });
    first = row;
  }
  return runs;
}
