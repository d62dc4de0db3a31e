import { RecordScan } from './record-scan.ts';
import { narrowestGuarded } from './swallowed-rows.ts';

/** A record that has not ended within this many code units is not read further than its first few. */
export const longestRecord = 1 << 20;
const keptOfTooLong = 1000;

/** From here on more text would not change what a scan that asks for more comes to. */
export const decisiveSpan = longestRecord + (1 << 18);

/** Lines after an unclosed quote among which the next row is looked for. */
const recoveryLines = 16;

export type CarefulResult = 'record' | 'more' | 'unclosed' | 'tooLong';

/**
 * Reads records of any kind from text, the broken ones too, and says where each ends. Of an unclosed quote the line
 * it stands on is read with quotes as text, and the record ends before the next line that has a row's cell count; if
 * none of the next lines has, it ends with its own line. What it comes to depends on the text from the record's start
 * only, not on how much of what follows is at hand.
 */
export class CarefulReader {
  readonly scan: RecordScan;
  /** Where the next record starts. */
  end = 0;
  terminated = false;
  /** True after `tooLong` where the record's line end is still to come. */
  cut = false;
  readonly #ahead: RecordScan;

  constructor(delimiter: string) {
    this.scan = new RecordScan(delimiter);
    this.#ahead = new RecordScan(delimiter);
  }

  /** Reads the record at `start`; `last` where nothing follows the text. */
  read(text: string, start: number, last: boolean, usualCells: number): CarefulResult {
    this.scan.usualCells = usualCells;
    this.cut = false;
    const result = this.scan.scan(text, start, last);
    if (result === 'unclosed') return this.#readUnclosed(text, start, last, usualCells);
    if (result === 'more') return this.#moreOf(text, start);
    if (this.scan.end - start > longestRecord) return this.#tooLong(text, start);
    const swallower = this.#swallower(text, last, usualCells);
    if (swallower === notYet) return 'more';
    if (swallower !== null) {
      this.scan.reopen(swallower);
      return this.#readUnclosed(text, start, last, usualCells);
    }
    this.end = this.scan.end;
    this.terminated = this.scan.terminated;
    return 'record';
  }

  /** The text of a cell of the record just read. */
  cell(text: string, index: number): string {
    return cellText(this.scan, text, index);
  }

  #moreOf(text: string, start: number): CarefulResult {
    return text.length - start > decisiveSpan ? this.#tooLong(text, start) : 'more';
  }

  #tooLong(text: string, start: number): CarefulResult {
    const lineEnd = text.indexOf('\n', start + longestRecord);
    this.scan.count = 0;
    this.scan.addWhole(start, start + keptOfTooLong);
    this.cut = lineEnd < 0;
    this.end = this.cut ? text.length : lineEnd + 1;
    this.terminated = true;
    return 'tooLong';
  }

  #readUnclosed(text: string, start: number, last: boolean, usualCells: number): CarefulResult {
    const open = this.scan.openAt;
    const found = text.indexOf('\n', open);
    if (found < 0 && !last) return this.#moreOf(text, start);
    const lineEnd = found < 0 ? text.length : found;
    if (lineEnd - start > longestRecord) return this.#tooLong(text, start);
    const next = this.#nextRow(text, Math.min(lineEnd + 1, text.length), last, usualCells);
    if (next < 0) return 'more';
    this.scan.addLiteral(text, open, lineEnd);
    this.end = next;
    this.terminated = found >= 0;
    return 'unclosed';
  }

  /**
   * The quoted cell of the record just scanned that holds the start of another row, null where none does: the line it
   * closes on reads as a row by itself, and the record has another count of cells or text after a quote, or would have
   * the right count without that line too. Where no such line is a row by itself but the record is wrong, one that reads as a row up to
   * the record's end will do: read from the middle of a text, a line may well take those after it for its own.
   */
  #swallower(text: string, last: boolean, usualCells: number): number | null {
    const { scan } = this;
    if (usualCells < narrowestGuarded) return null;
    let toTheEnd: number | null = null;
    for (let cell = 0; cell < scan.count; cell++) {
      const open = (scan.starts[cell] ?? 0) - 1;
      const close = scan.ends[cell] ?? 0;
      const lineEnd = text.indexOf('\n', open + 1);
      if (!scan.isQuoted(cell) || lineEnd < 0 || lineEnd > close) continue;
      const closingLine = text.lastIndexOf('\n', close) + 1;
      const cells = this.#cellsAhead(text, closingLine, last, usualCells);
      if (cells === notYet) return notYet;
      if (cells !== usualCells) continue;
      const isWrong = scan.count !== usualCells || scan.brokenAt >= 0;
      const spansLines = text.slice(closingLine, this.#ahead.end - 1).includes('\n');
      const cutShort = cell + scan.literalCells(text, open, lineEnd);
      if (!spansLines && (isWrong || cutShort === usualCells)) return cell;
      if (isWrong && this.#ahead.end === scan.end) toTheEnd = cell;
    }
    return toTheEnd;
  }

  /** Where the next row starts, `from` where none does, -1 where that cannot be said yet. */
  #nextRow(text: string, from: number, last: boolean, usualCells: number): number {
    if (usualCells === 0) return from;
    let at = from;
    for (let line = 0; line < recoveryLines; line++) {
      if (at >= text.length) return last ? from : -1;
      const cells = this.#cellsAhead(text, at, last, usualCells);
      if (cells === usualCells) return at;
      if (cells === tooFar) return from;
      const lineEnd = text.indexOf('\n', at);
      if (cells === notYet || (lineEnd < 0 && !last)) return -1;
      at = lineEnd < 0 ? text.length : lineEnd + 1;
    }
    return from;
  }

  #cellsAhead(text: string, at: number, last: boolean, usualCells: number): number {
    const ahead = this.#ahead;
    ahead.usualCells = usualCells;
    const result = ahead.scan(text, at, last);
    if (result === 'record') return ahead.end - at > longestRecord ? tooFar : ahead.count;
    if (result === 'unclosed') {
      const lineEnd = text.indexOf('\n', ahead.openAt);
      if (lineEnd >= 0 || last) {
        const end = lineEnd < 0 ? text.length : lineEnd;
        if (end - at > longestRecord) return tooFar;
        ahead.addLiteral(text, ahead.openAt, end);
        ahead.end = Math.min(end + 1, text.length);
        return ahead.count;
      }
    }
    return text.length - at > decisiveSpan ? tooFar : notYet;
  }
}

const notYet = -1;
const tooFar = -2;

/** The text of a scanned cell, doubled quotes undone. */
export function cellText(scan: RecordScan, text: string, index: number): string {
  const cell = text.slice(scan.starts[index], scan.ends[index]);
  return scan.isEscaped(index) ? cell.replaceAll('""', '"') : cell;
}
