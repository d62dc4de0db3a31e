import { grownCapacity } from './growth.ts';

/** Numbers in a growing Float64Array; NaN is missing. */
export class NumberColumn {
  readonly kind = 'number';
  #data: Float64Array;
  #length = 0;

  constructor(capacity = 0) {
    this.#data = new Float64Array(capacity);
  }

  /** A column that holds these values; the array is taken, not copied. */
  static of(values: Float64Array): NumberColumn {
    const column = new NumberColumn();
    column.#data = values;
    column.#length = values.length;
    return column;
  }

  get length(): number {
    return this.#length;
  }

  get bytes(): number {
    return this.#data.byteLength;
  }

  push(value: number): void {
    if (this.#length === this.#data.length) this.#reserve(this.#length + 1);
    this.#data[this.#length++] = value;
  }

  /** Adds values [from, to) of an array. */
  pushAll(values: Float64Array, from: number, to: number): void {
    this.#reserve(this.#length + to - from);
    this.#data.set(values.subarray(from, to), this.#length);
    this.#length += to - from;
  }

  /** The value of a row, NaN where missing or past the end. */
  at(row: number): number {
    return row < this.#length ? (this.#data[row] ?? NaN) : NaN;
  }

  /** A view of the values, valid until the next push. */
  values(): Float64Array {
    return this.#data.subarray(0, this.#length);
  }

  /** Makes the column `length` rows long, filling new rows with NaN. */
  resize(length: number): void {
    if (length > this.#data.length) this.#reserve(length);
    if (length > this.#length) this.#data.fill(NaN, this.#length, length);
    this.#length = length;
  }

  append(other: NumberColumn): void {
    this.#reserve(this.#length + other.length);
    this.#data.set(other.values(), this.#length);
    this.#length += other.length;
  }

  /** A new column with the rows named, in that order. */
  take(rows: Uint32Array): NumberColumn {
    const values = new Float64Array(rows.length);
    for (let i = 0; i < rows.length; i++) values[i] = this.at(rows[i] ?? 0);
    return NumberColumn.of(values);
  }

  /** Makes room for so many rows in all, so that adding them copies nothing. */
  reserve(rows: number): void {
    if (rows > this.#data.length) this.#grow(rows);
  }

  #reserve(needed: number): void {
    if (needed > this.#data.length) this.#grow(grownCapacity(this.#data.length, needed));
  }

  #grow(capacity: number): void {
    const grown = new Float64Array(capacity);
    grown.set(this.#data.subarray(0, this.#length));
    this.#data = grown;
  }
}
