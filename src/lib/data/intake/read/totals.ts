import type { NumberReader } from './number-reader.ts';
import type { RecordView } from '../tokeniser.ts';

/**
 * Running sums of the columns a total may be drawn under, since the start of the table and since the last total. A
 * total in a spreadsheet counts every row above it, so refused records count here too.
 */
export class RunningTotals {
  readonly #readers: readonly NumberReader[];
  readonly #all: Float64Array;
  readonly #since: Float64Array;
  #records = 0;

  constructor(readers: readonly NumberReader[]) {
    this.#readers = readers;
    this.#all = new Float64Array(readers.length);
    this.#since = new Float64Array(readers.length);
  }

  /** Records whose figures stand in the sums. */
  get records(): number {
    return this.#records;
  }

  /** Adds what the readers hold of the record just read. */
  add(): void {
    this.#records++;
    for (let i = 0; i < this.#readers.length; i++) {
      const raw = this.#readers[i]?.raw ?? NaN;
      if (raw === raw) {
        this.#all[i] = (this.#all[i] ?? 0) + raw;
        this.#since[i] = (this.#since[i] ?? 0) + raw;
      }
    }
  }

  /** Adds what the readers hold of records [from, to) of the block just read. */
  addBlock(from: number, to: number): void {
    this.#records += to - from;
    for (let i = 0; i < this.#readers.length; i++) {
      const raws = this.#readers[i]?.raws;
      let all = this.#all[i] ?? 0;
      let since = this.#since[i] ?? 0;
      for (let row = from; row < to; row++) {
        const raw = raws?.[row] ?? NaN;
        if (raw !== raw) continue;
        all += raw;
        since += raw;
      }
      this.#all[i] = all;
      this.#since[i] = since;
    }
  }

  /** Adds what can be read of a refused record. */
  addFrom(record: RecordView): void {
    this.#records++;
    for (let i = 0; i < this.#readers.length; i++) {
      const raw = this.#readers[i]?.rawOf(record) ?? NaN;
      if (Number.isNaN(raw)) continue;
      this.#all[i] = (this.#all[i] ?? 0) + raw;
      this.#since[i] = (this.#since[i] ?? 0) + raw;
    }
  }

  /** True where some figure of the record is the sum of its column; it then starts the next part. */
  matches(record: RecordView): boolean {
    let found = false;
    for (let i = 0; i < this.#readers.length && !found; i++) {
      const raw = this.#readers[i]?.rawOf(record) ?? NaN;
      found = !Number.isNaN(raw) && (isSum(raw, this.#all[i]) || isSum(raw, this.#since[i]));
    }
    if (found) this.#since.fill(0);
    return found;
  }
}

/** Totals are often rounded to the unit. */
function isSum(value: number, sum = NaN): boolean {
  return value !== 0 && Math.abs(value - sum) <= 0.5 + 1e-9 * Math.abs(sum);
}
