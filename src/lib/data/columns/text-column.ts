import { grownCapacity } from './growth.ts';

const shortText = 40;

/** Ends are 32-bit numbers. */
const mostBytes = 0xffffffff;

const encoder = new TextEncoder();
const decoder = new TextDecoder();

/**
 * Nearly unique texts as UTF-8 in one buffer with the end of each row: about the bytes of the source, where a
 * dictionary or an array of strings would cost several times as much. The empty text is missing.
 */
export class TextColumn {
  readonly kind = 'text';
  #buffer: Uint8Array;
  #used = 0;
  #ends: Uint32Array;
  #length = 0;

  constructor() {
    this.#buffer = new Uint8Array(0);
    this.#ends = new Uint32Array(0);
  }

  /** A column over stored bytes; the arrays are taken, not copied. */
  static of(buffer: Uint8Array, ends: Uint32Array): TextColumn {
    const column = new TextColumn();
    column.#buffer = buffer;
    column.#used = ends.length === 0 ? 0 : (ends[ends.length - 1] ?? 0);
    column.#ends = ends;
    column.#length = ends.length;
    return column;
  }

  get length(): number {
    return this.#length;
  }

  get bytes(): number {
    return this.#buffer.byteLength + this.#ends.byteLength;
  }

  push(text: string): void {
    // A UTF-16 code unit takes at most three bytes of UTF-8.
    this.#reserveBytes(this.#used + text.length * 3);
    const start = this.#used;
    const { length } = text;
    // Short ASCII is written by hand: a call of the encoder costs ten times as much.
    let at = 0;
    if (length <= shortText) {
      for (; at < length; at++) {
        const unit = text.charCodeAt(at);
        if (unit >= 0x80) break;
        this.#buffer[start + at] = unit;
      }
    }
    this.#used += at === length ? length : encoder.encodeInto(text, this.#buffer.subarray(start)).written;
    this.#pushEnd();
  }

  /** Adds a row from bytes that are UTF-8 already. */
  pushBytes(bytes: Uint8Array): void {
    this.#reserveBytes(this.#used + bytes.length);
    this.#buffer.set(bytes, this.#used);
    this.#used += bytes.length;
    this.#pushEnd();
  }

  /** Adds a row from bytes [from, to), which are UTF-8. */
  pushRange(bytes: Uint8Array, from: number, to: number): void {
    const start = this.#used;
    const length = to - from;
    this.#reserveBytes(start + length);
    const buffer = this.#buffer;
    // A call of `set` costs more than a short text.
    for (let i = 0; i < length; i++) buffer[start + i] = bytes[from + i] as number;
    this.#used = start + length;
    this.#pushEnd();
  }

  /** The text of a row, empty where missing or past the end. */
  at(row: number): string {
    return decoder.decode(this.bytesAt(row));
  }

  /** The UTF-8 bytes of a row: a view, valid until the next push. */
  bytesAt(row: number): Uint8Array {
    if (row >= this.#length) return this.#buffer.subarray(0, 0);
    return this.#buffer.subarray(this.#start(row), this.#ends[row]);
  }

  /** The bytes in use and the end of each row in them. */
  parts(): { buffer: Uint8Array; ends: Uint32Array } {
    return { buffer: this.#buffer.subarray(0, this.#used), ends: this.#ends.subarray(0, this.#length) };
  }

  /** A copy of the parts of rows [from, to), ends counted from the first of them. */
  partsOf(from: number, to: number): { buffer: Uint8Array; ends: Uint32Array } {
    const start = this.#start(from);
    const ends = this.#ends.slice(from, to);
    for (let i = 0; i < ends.length; i++) ends[i] = (ends[i] ?? 0) - start;
    return { buffer: this.#buffer.slice(start, this.#start(to)), ends };
  }

  resize(length: number): void {
    if (length < this.#length) {
      this.#length = length;
      this.#used = this.#start(length);
    }
    while (this.#length < length) this.#pushEnd();
  }

  append(other: TextColumn): void {
    const { buffer, ends } = other.parts();
    this.#reserveBytes(this.#used + buffer.length);
    this.#buffer.set(buffer, this.#used);
    this.#reserveRows(this.#length + ends.length);
    for (let i = 0; i < ends.length; i++) this.#ends[this.#length + i] = this.#used + (ends[i] ?? 0);
    this.#used += buffer.length;
    this.#length += ends.length;
  }

  take(rows: Uint32Array): TextColumn {
    const taken = new TextColumn();
    for (const row of rows) taken.pushBytes(this.bytesAt(row));
    return taken;
  }

  #start(row: number): number {
    return row === 0 ? 0 : (this.#ends[row - 1] ?? 0);
  }

  #pushEnd(): void {
    this.#reserveRows(this.#length + 1);
    this.#ends[this.#length++] = this.#used;
  }

  /** Makes room for so many rows in all, as long as those at hand, so that adding them copies nothing. */
  reserve(rows: number): void {
    if (rows > this.#ends.length) this.#growRows(rows);
    const bytes = this.#length === 0 ? 0 : Math.ceil((this.#used / this.#length) * rows);
    if (bytes > this.#buffer.length && bytes <= mostBytes) this.#growBytes(bytes);
  }

  #reserveBytes(needed: number): void {
    if (needed <= this.#buffer.length) return;
    if (needed > mostBytes) throw new RangeError(`text column: ${needed} bytes, need at most ${mostBytes}`);
    this.#growBytes(grownCapacity(this.#buffer.length, needed));
  }

  #growBytes(capacity: number): void {
    const grown = new Uint8Array(capacity);
    grown.set(this.#buffer.subarray(0, this.#used));
    this.#buffer = grown;
  }

  #reserveRows(needed: number): void {
    if (needed > this.#ends.length) this.#growRows(grownCapacity(this.#ends.length, needed));
  }

  #growRows(capacity: number): void {
    const grown = new Uint32Array(capacity);
    grown.set(this.#ends.subarray(0, this.#length));
    this.#ends = grown;
  }
}
