import type { Dictionary, TextColumn } from '#lib/data/columns/index.ts';
import { longestBlock, type RecordBlock, type RecordView } from '../tokeniser.ts';
import type { ByteRecord } from './byte-record.ts';
import { byteForm, type ByteScan } from './byte-scan.ts';
import { scanInstants, scanNumbers } from './scan-columns.ts';

/** Most cells of a block, the last record aside: a block and the bytes behind it stay in the processor's cache. */
export const mostBlockCells = 1 << 14;

/** The block over the buffer of a byte reader. Its records stand one behind the other in the arrays of the scan. */
export class ByteBlock implements RecordBlock {
  count = 0;
  cellCount = 0;
  line = 1;
  readonly #scan: ByteScan;
  readonly #record: ByteRecord;
  readonly #isUtf8: boolean;
  /** Where each record starts and the last one ends in the buffer. */
  readonly #places = new Int32Array(longestBlock + 1);
  #base = 0;

  constructor(scan: ByteScan, record: ByteRecord, encoding: 'utf-8' | 'windows-1252') {
    this.#scan = scan;
    this.#record = record;
    this.#isUtf8 = encoding === 'utf-8';
  }

  /** Begins anew with the record that starts on `line`; byte `base` of the file is the first of the buffer. */
  begin(line: number, base: number): void {
    this.count = 0;
    this.line = line;
    this.#base = base;
    this.#scan.base = 0;
  }

  /** Keeps the record just scanned, which starts at `at`; false where the block is full then. */
  keep(at: number): boolean {
    const scan = this.#scan;
    this.cellCount = scan.count;
    this.#places[this.count++] = at;
    this.#places[this.count] = scan.end;
    scan.base += scan.count;
    return this.count < longestBlock && scan.base < mostBlockCells;
  }

  /** The place in the buffer after so many records. */
  placeAfter(records: number): number {
    return this.#places[records] ?? 0;
  }

  record(index: number): RecordView {
    const record = this.#record;
    record.line = this.line + index;
    record.lines = 1;
    record.cellCount = this.cellCount;
    record.base = index * this.cellCount;
    record.byteStart = this.#base + (this.#places[index] ?? 0);
    record.byteEnd = this.#base + (this.#places[index + 1] ?? 0);
    return record;
  }

  empties(cell: number, into: Uint8Array): void {
    const { count, cellCount } = this;
    if (cell >= cellCount) {
      into.fill(1, 0, count);
      return;
    }
    const { starts, ends } = this.#scan;
    for (let i = 0, place = cell; i < count; i++, place += cellCount) {
      const isNothing = starts[place] === ends[place];
      into[i] = isNothing || (this.#startsBlank(place) && this.record(i).isEmpty(cell)) ? 1 : 0;
    }
  }

  #startsBlank(place: number): boolean {
    const { bytes, starts } = this.#scan;
    const first = bytes[starts[place] as number] as number;
    return first <= 0x20 || first >= 0x80;
  }

  initials(cell: number, into: Uint8Array): void {
    const { count, cellCount } = this;
    const { bytes, starts, ends } = this.#scan;
    for (let i = 0, place = cell; i < count; i++, place += cellCount) {
      const start = starts[place] as number;
      into[i] = cell < cellCount && start < (ends[place] as number) ? (bytes[start] as number) : 0;
    }
  }

  numbers(cell: number, decimal: '.' | ',', values: Float64Array, looks: Uint8Array): void {
    const { count, cellCount } = this;
    if (cell < cellCount) {
      scanNumbers(this.#scan, cell, cellCount, count, decimal, values, looks);
      return;
    }
    values.fill(NaN, 0, count);
    looks.fill(0, 0, count);
  }

  instants(cell: number, values: Float64Array, isUtc: Uint8Array): void {
    const { count, cellCount } = this;
    if (cell < cellCount) scanInstants(this.#scan, cell, cellCount, count, values, isUtc);
    else values.fill(NaN, 0, count);
  }

  codes(cell: number, dictionary: Dictionary, codes: Uint32Array, except: Uint8Array | null): void {
    const record = this.#record;
    record.cellCount = this.cellCount;
    for (let i = 0; i < this.count; i++) {
      if (except !== null && except[i] !== 0) continue;
      record.base = i * this.cellCount;
      codes[i] = record.code(cell, dictionary);
    }
  }

  texts(cell: number, from: number, to: number, into: TextColumn): void {
    const { cellCount } = this;
    const { bytes, starts, ends, forms } = this.#scan;
    for (let i = from; i < to; i++) {
      const place = i * cellCount + cell;
      const isHere = cell < cellCount;
      const start = isHere ? (starts[place] as number) : 0;
      const end = isHere ? (ends[place] as number) : 0;
      const isPlain = isHere && (forms[place] as number) <= byteForm.quoted;
      if (start === end) into.push('');
      else if (isPlain && this.#isUtf8 && isInk(bytes[start]) && isInk(bytes[end - 1])) {
        into.pushRange(bytes, start, end);
      } else into.push(this.record(i).text(cell).trim());
    }
  }
}

/** True for a byte that is neither a blank nor part of a character that may be one. */
function isInk(byte = 0): boolean {
  return byte > 0x20 && byte < 0x80;
}
