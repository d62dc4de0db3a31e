import { Dictionary } from './dictionary.ts';
import { grownCapacity } from './growth.ts';

/** Dictionary codes in a growing Uint32Array; code 0 is missing. */
export class CodeColumn {
  readonly kind = 'code';
  readonly dictionary: Dictionary;
  #data: Uint32Array;
  #length = 0;
  /** Rows from here on were never written and are 0: left untouched they cost no memory. */
  #written = 0;

  constructor(dictionary = new Dictionary(), capacity = 0) {
    this.dictionary = dictionary;
    this.#data = new Uint32Array(capacity);
  }

  /** A column over codes already given out by `dictionary`; the array is taken, not copied. */
  static of(dictionary: Dictionary, codes: Uint32Array): CodeColumn {
    const column = new CodeColumn(dictionary);
    column.#data = codes;
    column.#length = codes.length;
    column.#written = codes.length;
    return column;
  }

  get length(): number {
    return this.#length;
  }

  get bytes(): number {
    return this.#data.byteLength;
  }

  push(code: number): void {
    if (this.#length === this.#data.length) this.#reserve(this.#length + 1);
    this.#data[this.#length++] = code;
    if (this.#written < this.#length) this.#written = this.#length;
  }

  /** Adds codes [from, to) of an array, given out by the column's dictionary. */
  pushAll(codes: Uint32Array, from: number, to: number): void {
    this.#reserve(this.#length + to - from);
    this.#data.set(codes.subarray(from, to), this.#length);
    this.#length += to - from;
    this.#written = Math.max(this.#written, this.#length);
  }

  pushText(text: string): void {
    this.push(this.dictionary.code(text));
  }

  /** The code of a row, 0 where missing or past the end. */
  at(row: number): number {
    return row < this.#length ? (this.#data[row] ?? 0) : 0;
  }

  /** The text of a row, empty where missing. */
  text(row: number): string {
    return this.dictionary.text(this.at(row));
  }

  /** A view of the codes, valid until the next push. */
  codes(): Uint32Array {
    return this.#data.subarray(0, this.#length);
  }

  /** Makes the column `length` rows long, new rows missing. */
  resize(length: number): void {
    if (length > this.#data.length) this.#reserve(length);
    const stale = Math.min(length, this.#written);
    if (stale > this.#length) this.#data.fill(0, this.#length, stale);
    this.#length = length;
  }

  /** Adds the rows of a column with a dictionary of its own. */
  append(other: CodeColumn): void {
    const translated = Uint32Array.from(other.dictionary.texts(), (text) => this.dictionary.code(text));
    const codes = other.codes();
    this.#reserve(this.#length + codes.length);
    for (let i = 0; i < codes.length; i++) this.#data[this.#length + i] = translated[codes[i] ?? 0] ?? 0;
    this.#length += codes.length;
    this.#written = Math.max(this.#written, this.#length);
  }

  /** Makes room for so many rows in all, so that adding them copies nothing. */
  reserve(rows: number): void {
    if (rows > this.#data.length) this.#grow(rows);
  }

  take(rows: Uint32Array): CodeColumn {
    const codes = new Uint32Array(rows.length);
    for (let i = 0; i < rows.length; i++) codes[i] = this.at(rows[i] ?? 0);
    return CodeColumn.of(this.dictionary, codes);
  }

  /** Rows [from, to) over a dictionary of only the texts that stand in them, coded in the order they are met. */
  compacted(from = 0, to = this.#length): CodeColumn {
    const dictionary = new Dictionary();
    const translated = new Int32Array(this.dictionary.size).fill(-1);
    const codes = new Uint32Array(to - from);
    for (let row = from; row < to; row++) {
      const code = this.#data[row] ?? 0;
      let fresh = translated[code] ?? -1;
      if (fresh < 0) {
        fresh = dictionary.code(this.dictionary.text(code));
        translated[code] = fresh;
      }
      codes[row - from] = fresh;
    }
    return CodeColumn.of(dictionary, codes);
  }

  #reserve(needed: number): void {
    if (needed > this.#data.length) this.#grow(grownCapacity(this.#data.length, needed));
  }

  #grow(capacity: number): void {
    const grown = new Uint32Array(capacity);
    this.#written = Math.min(this.#written, this.#length);
    grown.set(this.#data.subarray(0, this.#written));
    this.#data = grown;
  }
}
