import { rowsSwallowed } from './swallowed-rows.ts';

const quote = 0x22;
const lineFeed = 0x0a;

/** A quoted cell that has not ended within this many code units was never meant to be one. */
export const longestQuoted = 1 << 16;

/** Blanks between a closing quote and the delimiter that are overlooked. */
export const mostBlanks = 1000;

/** How a cell is written: as it is; in quotes; in quotes with doubled quotes in it; in quotes with text after them. */
const cellForm = { plain: 0, quoted: 1, escaped: 2, broken: 3 } as const;

/** What a scan came to; `more`: the end of the record lies beyond the text. */
export type ScanResult = 'record' | 'more' | 'unclosed';

/**
 * Where the cells of one record stand in a text whose line ends are LF: RFC 4180, and quotes in the middle of an
 * unquoted cell are text, blanks after a closing quote are overlooked, and other text after it on the line where the
 * quote opened makes the cell one of plain text up to the next delimiter. Text after a quote that closed on a later
 * line shows a quote that was never closed. Reused from record to record.
 */
export class RecordScan {
  readonly starts: number[] = [];
  readonly ends: number[] = [];
  readonly forms: number[] = [];
  count = 0;
  /** The place after the record's line end. */
  end = 0;
  /** False where the text ends without a line end. */
  terminated = false;
  /** The opening quote of the first cell with text after its quotes, -1 where there is none. */
  brokenAt = -1;
  /** The quote that was never closed; holds after `unclosed`, when the cells are those before it. */
  openAt = -1;
  /** The cells a record should have, 0 where that is not known. */
  usualCells = 0;
  readonly #delimiter: number;

  constructor(delimiter: string) {
    this.#delimiter = delimiter.charCodeAt(0);
  }

  /** Scans the record that starts at `start`; `last` where nothing follows the text. */
  scan(text: string, start: number, last: boolean): ScanResult {
    this.count = 0;
    this.brokenAt = -1;
    let at = start;
    for (;;) {
      const result = text.charCodeAt(at) === quote ? this.#quoted(text, at, last) : this.#plain(text, at, at);
      if (result !== 'record') return result;
      at = this.end;
      if (at === text.length) return this.#finish(at, false, last);
      if (text.charCodeAt(at) === lineFeed) return this.#finish(at + 1, true, last);
      at++;
    }
  }

  /** Adds [from, to) as one cell of plain text. */
  addWhole(from: number, to: number): void {
    this.#add(from, to, cellForm.plain);
  }

  isEscaped(index: number): boolean {
    return this.forms[index] === cellForm.escaped;
  }

  isQuoted(index: number): boolean {
    return this.forms[index] === cellForm.quoted || this.forms[index] === cellForm.escaped;
  }

  /** Takes back a quoted cell and what follows it: its quote stands as one that was never closed. */
  reopen(index: number): void {
    this.openAt = (this.starts[index] ?? 0) - 1;
    this.count = index;
    if (this.brokenAt > this.openAt) this.brokenAt = -1;
  }

  /** The cells of [from, to), quotes taken as text. */
  literalCells(text: string, from: number, to: number): number {
    let cells = 1;
    for (let at = from; at < to; at++) if (text.charCodeAt(at) === this.#delimiter) cells++;
    return cells;
  }

  /** Adds the cells of [from, to), quotes taken as text. */
  addLiteral(text: string, from: number, to: number): void {
    let start = from;
    for (let at = from; at < to; at++) {
      if (text.charCodeAt(at) !== this.#delimiter) continue;
      this.#add(start, at, cellForm.plain);
      start = at + 1;
    }
    this.#add(start, to, cellForm.plain);
  }

  #finish(end: number, terminated: boolean, last: boolean): ScanResult {
    this.end = end;
    this.terminated = terminated;
    return terminated || last ? 'record' : 'more';
  }

  #plain(text: string, start: number, from: number, form: number = cellForm.plain): ScanResult {
    let at = from;
    for (; at < text.length; at++) {
      const unit = text.charCodeAt(at);
      if (unit === this.#delimiter || unit === lineFeed) break;
    }
    this.#add(start, at, form);
    this.end = at;
    return 'record';
  }

  #quoted(text: string, open: number, last: boolean): ScanResult {
    let form: number = cellForm.quoted;
    let close = text.indexOf('"', open + 1);
    while (close >= 0 && text.charCodeAt(close + 1) === quote) {
      form = cellForm.escaped;
      close = text.indexOf('"', close + 2);
    }
    if (close < 0 || close - open > longestQuoted) {
      return last || text.length - open > longestQuoted + 1 ? this.#unclosed(open) : 'more';
    }
    const after = this.#afterBlanks(text, close + 1);
    if (after === text.length && !last) return 'more';
    const clean = after === text.length || this.#endsCell(text.charCodeAt(after));
    if (text.slice(open, close).includes('\n')) {
      const isSwallowed = rowsSwallowed(
        (i) => text.charCodeAt(i),
        open,
        close,
        this.#delimiter,
        this.usualCells
      );
      if (!clean || isSwallowed) return this.#unclosed(open);
    }
    if (!clean) {
      if (this.brokenAt < 0) this.brokenAt = open;
      return this.#plain(text, open, close + 1, cellForm.broken);
    }
    this.#add(open + 1, close, form);
    this.end = after;
    return 'record';
  }

  #unclosed(open: number): ScanResult {
    this.openAt = open;
    return 'unclosed';
  }

  #endsCell(unit: number): boolean {
    return unit === this.#delimiter || unit === lineFeed;
  }

  #afterBlanks(text: string, from: number): number {
    const most = Math.min(text.length, from + mostBlanks);
    let at = from;
    while (at < most && !this.#endsCell(text.charCodeAt(at)) && text.charAt(at).trim() === '') at++;
    return at;
  }

  #add(start: number, end: number, form: number): void {
    this.starts[this.count] = start;
    this.ends[this.count] = end;
    this.forms[this.count] = form;
    this.count++;
  }
}
