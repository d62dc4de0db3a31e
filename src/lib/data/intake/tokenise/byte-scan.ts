import { decodeBytes } from '../bytes/decode.ts';
import { unitFault } from './form-faults.ts';
import { rowsSwallowed } from './swallowed-rows.ts';

const lineFeed = 0x0a;
const carriageReturn = 0x0d;
const quote = 0x22;

/** What a byte may be to a reader. */
const byteKind = { plain: 0, delimiter: 1, lineEnd: 2, quote: 3, wide: 4, fault: 5 } as const;

/** Longer records are left to the careful reader, and with them every limit on the length of a cell. */
export const longestRecord = 1 << 16;

const longestCharacter = 4;

export type ByteScanResult = 'record' | 'more' | 'notUnderstood';

/** How a cell is written; `escaped` holds doubled quotes, `lined` CR line ends, and both may be set. */
export const byteForm = { quoted: 1, escaped: 2, lined: 4 } as const;

/**
 * Where the cells of one record stand in a buffer of bytes. It understands well-formed records of UTF-8 or
 * Windows-1252 without characters that are faults, and for anything else says so. Reused from record to record.
 */
export class ByteScan {
  /** The bytes at hand; the one after the last must exist and be NUL, which ends every loop. */
  bytes = new Uint8Array(1);
  readonly starts: Int32Array;
  readonly ends: Int32Array;
  readonly forms: Uint8Array;
  /** Where the record's first cell stands in the arrays, behind those of records that are kept. */
  base = 0;
  count = 0;
  /** The place after the record's line end. */
  end = 0;
  /** Physical lines of the record. */
  lines = 1;
  readonly #delimiter: number;
  readonly #unquoted: Uint8Array;
  readonly #quoted: Uint8Array;

  /** Keeps up to `keptCells` cells of records before the one at hand. */
  constructor(delimiter: string, encoding: 'utf-8' | 'windows-1252', keptCells = 0) {
    const cells = keptCells + longestRecord + 2;
    this.starts = new Int32Array(cells);
    this.ends = new Int32Array(cells);
    this.forms = new Uint8Array(cells);
    this.#delimiter = delimiter.charCodeAt(0);
    this.#quoted = kinds(encoding);
    this.#unquoted = this.#quoted.slice();
    this.#quoted[quote] = byteKind.quote;
    this.#unquoted[this.#delimiter] = byteKind.delimiter;
  }

  /**
   * Scans the record at `start` of the bytes up to `end`; `last` where the file ends there. `more`: the record may go
   * on after `end`.
   */
  scan(start: number, end: number, last: boolean, usualCells: number): ByteScanResult {
    const { bytes, starts, ends, forms, base } = this;
    const kindOf = this.#unquoted;
    const delimiter = this.#delimiter;
    this.lines = 1;
    let cell = base;
    let at = start;
    for (;;) {
      if (bytes[at] === quote) {
        this.count = cell - base;
        const result = this.#quotedCell(at, end, last);
        if (result !== 'record') return result;
        at = this.end;
        cell++;
      } else {
        starts[cell] = at;
        while (kindOf[bytes[at] as number] === byteKind.plain) at++;
        while (kindOf[bytes[at] as number] === byteKind.wide) {
          const next = this.#afterCharacter(at);
          if (next < 0) return mayBeCut(at, end, last);
          at = next;
          while (kindOf[bytes[at] as number] === byteKind.plain) at++;
        }
        ends[cell] = at;
        forms[cell++] = 0;
      }
      if (bytes[at] !== delimiter) {
        this.count = cell - base;
        return this.#recordEnd(start, at, end, last, usualCells);
      }
      at++;
    }
  }

  /** Ends the record at `at`, which is no delimiter. */
  #recordEnd(start: number, at: number, end: number, last: boolean, usualCells: number): ByteScanResult {
    const byte = this.bytes[at];
    if (at === end) {
      if (!last) return 'more';
      // Too few cells at the end of a file are a fault, and faults are told elsewhere.
      if (this.count < usualCells) return 'notUnderstood';
      this.end = at;
    } else if (byte === lineFeed) {
      this.end = at + 1;
    } else if (byte === carriageReturn) {
      if (at + 1 === end && !last) return 'more';
      this.end = this.bytes[at + 1] === lineFeed ? at + 2 : at + 1;
    } else {
      return 'notUnderstood';
    }
    if (this.end - start > longestRecord) return 'notUnderstood';
    return this.lines > 1 && this.#hasSwallowedRows(usualCells) ? 'notUnderstood' : 'record';
  }

  #quotedCell(open: number, end: number, last: boolean): ByteScanResult {
    const bytes = this.bytes;
    const kindOf = this.#quoted;
    let form: number = byteForm.quoted;
    let at = open + 1;
    for (;;) {
      while (kindOf[bytes[at] ?? 0] === byteKind.plain) at++;
      switch (kindOf[bytes[at] ?? 0]) {
        case byteKind.lineEnd:
          this.lines++;
          if (bytes[at] === carriageReturn) {
            form |= byteForm.lined;
            if (bytes[at + 1] === lineFeed) at++;
          }
          at++;
          break;
        case byteKind.wide: {
          const next = this.#afterCharacter(at);
          if (next < 0) return mayBeCut(at, end, last);
          at = next;
          break;
        }
        case byteKind.quote:
          if (bytes[at + 1] !== quote) return this.#closeQuoted(open, at, form, end, last);
          form |= byteForm.escaped;
          at += 2;
          break;
        default:
          return at === end && !last ? 'more' : 'notUnderstood';
      }
    }
  }

  #closeQuoted(open: number, close: number, form: number, end: number, last: boolean): ByteScanResult {
    const cell = this.base + this.count++;
    this.starts[cell] = open + 1;
    this.ends[cell] = close;
    this.forms[cell] = form;
    this.end = close + 1;
    if (close + 1 === end) return last ? 'record' : 'more';
    const kind = this.#unquoted[this.bytes[close + 1] ?? 0];
    return kind === byteKind.delimiter || kind === byteKind.lineEnd ? 'record' : 'notUnderstood';
  }

  /** The place after the character of UTF-8 at `at`, -1 where it is ill-formed or a fault by itself. */
  #afterCharacter(at: number): number {
    const bytes = this.bytes;
    const lead = bytes[at] ?? 0;
    const second = bytes[at + 1] ?? 0;
    if (lead < 0xe0) {
      // U+0080 to U+009F are control characters.
      return lead >= 0xc2 && isTail(second) && (lead !== 0xc2 || second >= 0xa0) ? at + 2 : -1;
    }
    const third = bytes[at + 2] ?? 0;
    if (!isTail(second) || !isTail(third)) return -1;
    if (lead < 0xf0) {
      if ((lead === 0xe0 && second < 0xa0) || (lead === 0xed && second > 0x9f)) return -1;
      const isReplacement = lead === 0xef && second === 0xbf && third === 0xbd;
      return isReplacement ? -1 : at + 3;
    }
    if (lead > 0xf4 || (lead === 0xf0 && second < 0x90) || (lead === 0xf4 && second > 0x8f)) return -1;
    return isTail(bytes[at + 3] ?? 0) ? at + 4 : -1;
  }

  /** The place where the line that a cell ends on starts, -1 where the cell does not span lines. */
  lastLineOf(cell: number): number {
    const place = this.base + cell;
    if ((this.forms[place] ?? 0) === 0) return -1;
    const start = this.starts[place] ?? 0;
    let at = this.ends[place] ?? 0;
    while (at > start && this.#quoted[this.bytes[at - 1] ?? 0] !== byteKind.lineEnd) at--;
    return at === start ? -1 : at;
  }

  #hasSwallowedRows(usualCells: number): boolean {
    const unitAt = (at: number): number => this.bytes[at] ?? 0;
    for (let cell = 0; cell < this.count; cell++) {
      if (this.lastLineOf(cell) < 0) continue;
      const open = (this.starts[this.base + cell] ?? 0) - 1;
      if (rowsSwallowed(unitAt, open, this.ends[this.base + cell] ?? 0, this.#delimiter, usualCells))
        return true;
    }
    return false;
  }
}

/** A character that is ill-formed because its last bytes are still to come is not a fault. */
function mayBeCut(at: number, end: number, last: boolean): ByteScanResult {
  return !last && end - at < longestCharacter ? 'more' : 'notUnderstood';
}

function isTail(byte: number): boolean {
  return byte >= 0x80 && byte <= 0xbf;
}

function kinds(encoding: 'utf-8' | 'windows-1252'): Uint8Array {
  const kindOf = new Uint8Array(256);
  for (let byte = 0; byte < 256; byte++) {
    const text = encoding === 'utf-8' && byte >= 0x80 ? '' : decodeBytes(Uint8Array.of(byte), encoding);
    if (text === '') kindOf[byte] = byteKind.wide;
    else if (byte === lineFeed || byte === carriageReturn) kindOf[byte] = byteKind.lineEnd;
    else if (unitFault(text.charCodeAt(0)) !== null) kindOf[byte] = byteKind.fault;
  }
  return kindOf;
}
