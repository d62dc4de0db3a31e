import type { Dictionary } from '#lib/data/columns/index.ts';
import { decodeBytes } from '../bytes/decode.ts';
import type { NumberMarks, RecordView } from '../tokeniser.ts';
import { ByteDictionary } from './byte-dictionary.ts';
import { byteForm, type ByteScan } from './byte-scan.ts';
import { scanNumber, scanNumberBytes } from './scan-number.ts';

/** Up to here a text is put together by hand, which costs less than a call of the decoder: instants are as long. */
const shortText = 25;

const utf8 = new TextDecoder('utf-8', { ignoreBOM: true });

/** The record view over the buffer of a byte reader: cells become strings only where they are asked for as text. */
export class ByteRecord implements RecordView {
  line = 1;
  lines = 1;
  byteStart = 0;
  byteEnd = 0;
  cellCount = 0;
  /** Where its first cell stands in the arrays of the scan. */
  base = 0;
  readonly #scan: ByteScan;
  readonly #encoding: 'utf-8' | 'windows-1252';
  readonly #dictionaries = new Map<Dictionary, ByteDictionary>();
  /** The dictionary that each cell was last asked for, which is the same from record to record. */
  readonly #lastOf: ByteDictionary[] = [];
  #askedFrom = 0;
  #askedTo = 0;
  readonly #askedText = (): string => this.#decode(this.#askedFrom, this.#askedTo);

  constructor(scan: ByteScan, encoding: 'utf-8' | 'windows-1252') {
    this.#scan = scan;
    this.#encoding = encoding;
  }

  isEmpty(cell: number): boolean {
    if (cell >= this.cellCount) return true;
    const { bytes, starts, ends } = this.#scan;
    const place = this.base + cell;
    const end = ends[place] ?? 0;
    for (let at = starts[place] ?? 0; at < end; at++) {
      const byte = bytes[at] ?? 0;
      if (byte >= 0x80) return this.text(cell).trim() === '';
      if (!isBlank(byte)) return false;
    }
    return true;
  }

  wasQuoted(cell: number): boolean {
    return cell < this.cellCount && this.#scan.forms[this.base + cell] !== 0;
  }

  text(cell: number): string {
    if (cell >= this.cellCount) return '';
    const place = this.base + cell;
    const text = this.#decode(this.#scan.starts[place] ?? 0, this.#scan.ends[place] ?? 0);
    const form = this.#scan.forms[place] ?? 0;
    return form <= byteForm.quoted ? text : undone(text, form);
  }

  number(cell: number, marks: NumberMarks): number {
    if (cell >= this.cellCount) return NaN;
    const { bytes, starts, ends } = this.#scan;
    const place = this.base + cell;
    const start = starts[place] ?? 0;
    const end = ends[place] ?? 0;
    const value = scanNumberBytes(bytes, start, end, marks);
    // Marks beyond ASCII are read from text.
    return Number.isNaN(value) && !isAscii(bytes, start, end) ? scanNumber(this.text(cell), marks) : value;
  }

  code(cell: number, dictionary: Dictionary): number {
    if (cell >= this.cellCount) return 0;
    const { bytes, starts, ends, forms } = this.#scan;
    const place = this.base + cell;
    let start = starts[place] ?? 0;
    let end = ends[place] ?? 0;
    while (start < end && isBlank(bytes[start] ?? 0)) start++;
    while (end > start && isBlank(bytes[end - 1] ?? 0)) end--;
    if (start === end) return 0;
    // Other blanks at the ends, and texts that are not their bytes, go by way of a string.
    const isPlain = (forms[place] ?? 0) <= byteForm.quoted;
    if (!isPlain || (bytes[start] ?? 0) >= 0x80 || (bytes[end - 1] ?? 0) >= 0x80) {
      return dictionary.code(this.text(cell).trim());
    }
    this.#askedFrom = start;
    this.#askedTo = end;
    return this.#dictionaryOf(cell, dictionary).code(bytes, start, end, this.#askedText);
  }

  #dictionaryOf(cell: number, dictionary: Dictionary): ByteDictionary {
    const last = this.#lastOf[cell];
    if (last?.dictionary === dictionary) return last;
    const found = this.#dictionaries.get(dictionary) ?? new ByteDictionary(dictionary);
    this.#dictionaries.set(dictionary, found);
    this.#lastOf[cell] = found;
    return found;
  }

  #decode(start: number, end: number): string {
    const { bytes } = this.#scan;
    if (end - start <= shortText && isAscii(bytes, start, end)) return shortAscii(bytes, start, end);
    const part = bytes.subarray(start, end);
    return this.#encoding === 'utf-8' ? utf8.decode(part) : decodeBytes(part, this.#encoding);
  }
}

function undone(text: string, form: number): string {
  const single = (form & byteForm.escaped) === 0 ? text : text.replaceAll('""', '"');
  return (form & byteForm.lined) === 0 ? single : single.replaceAll('\r\n', '\n').replaceAll('\r', '\n');
}

function isBlank(byte: number): boolean {
  return byte === 0x20 || (byte >= 9 && byte <= 13);
}

function isAscii(bytes: Uint8Array, start: number, end: number): boolean {
  for (let at = start; at < end; at++) if ((bytes[at] ?? 0) >= 0x80) return false;
  return true;
}

function shortAscii(bytes: Uint8Array, start: number, end: number): string {
  let text = '';
  let at = start;
  for (; at + 4 <= end; at += 4) {
    text += String.fromCharCode(bytes[at] ?? 0, bytes[at + 1] ?? 0, bytes[at + 2] ?? 0, bytes[at + 3] ?? 0);
  }
  for (; at < end; at++) text += String.fromCharCode(bytes[at] ?? 0);
  return text;
}
