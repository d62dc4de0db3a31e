import Papa from 'papaparse';
import type {
  Along,
  Dialect,
  FormFault,
  FormFaultCode,
  RecordVisitor,
  Tokeniser,
  TokeniserReport
} from '../tokeniser.ts';
import { ByteSource } from '../bytes/byte-source.ts';
import { CarefulReader, decisiveSpan, longestRecord, type CarefulResult } from './careful-reader.ts';
import { characterFaults, nextFaultyUnit } from './form-faults.ts';
import { ReadingState } from './reading-state.ts';
import { mostBlanks } from './record-scan.ts';
import { TextRecord } from './text-record.ts';
import { textPieces } from './text-source.ts';

const defaultChunkBytes = 1 << 20;

/**
 * Reads records by papaparse, which is named here only. Whole records of quoted or unquoted cells are its own; a
 * record it finds fault with, or whose quoted cells span lines, is read again with care, and after a fault so is what
 * is left of the piece at hand.
 */
export class PapaTokeniser implements Tokeniser {
  readonly #chunkBytes: number;

  constructor(chunkBytes = defaultChunkBytes) {
    this.#chunkBytes = chunkBytes;
  }

  async read(
    source: Blob,
    dialect: Dialect,
    visit: RecordVisitor,
    along: Along = {}
  ): Promise<TokeniserReport> {
    const state = new ReadingState(dialect, visit, along);
    await readByPapa(source, dialect, state, this.#chunkBytes, false);
    return state.report();
  }
}

/**
 * Reads on from `state.bytes`, where a record starts on `state.line`; with `once`, no further than the first place
 * past some records where a piece of the file and a record end together.
 */
export async function readByPapa(
  source: Blob,
  dialect: Dialect,
  state: ReadingState,
  chunkBytes: number,
  once: boolean
): Promise<void> {
  const run = new PapaRun(dialect, state);
  for await (const piece of textPieces(
    new ByteSource(source, state.bytes, state.onFetched),
    dialect.encoding,
    source.size,
    chunkBytes
  )) {
    run.take(piece.text, piece.last);
    const between = piece.endsLine && run.isBetweenRecords;
    if (!(await state.reached(piece.bytes)) || (once && between)) return;
  }
}

/** The text at hand of one file and the records in it. */
class PapaRun {
  readonly #state: ReadingState;
  readonly #delimiter: string;
  readonly #careful: CarefulReader;
  readonly #record: TextRecord;
  /** Text from the start of the first record not yet given out. */
  #text = '';
  /** True while the rest of a record that is too long is passed over. */
  #passingOver = false;
  /** Where the first character is that is a fault by itself, the text's end where there is none. */
  #faultyAt = 0;

  constructor(dialect: Dialect, state: ReadingState) {
    this.#state = state;
    this.#delimiter = dialect.delimiter;
    this.#careful = new CarefulReader(dialect.delimiter);
    this.#record = new TextRecord(dialect.delimiter);
  }

  get isBetweenRecords(): boolean {
    return this.#text === '' && !this.#passingOver;
  }

  /** Gives out the records that are complete with this piece of text. */
  take(piece: string, last: boolean): void {
    const known = this.#text.length;
    this.#text += piece;
    if (this.#faultyAt >= known) this.#findFaultyUnit(known);
    let at = this.#passOver();
    const whole = this.#text.lastIndexOf('\n') + 1;
    if (at < whole) {
      const stop = this.#byPapaparse(at, whole);
      at = stop.at;
      if (stop.withCare) at = this.#withCare(at, last);
    }
    if (last || this.#text.length - at > decisiveSpan) at = this.#withCare(at, last);
    this.#text = this.#text.slice(at);
    this.#faultyAt -= at;
  }

  #findFaultyUnit(from: number): void {
    this.#faultyAt = nextFaultyUnit(this.#text, from, this.#text.length);
  }

  #passOver(): number {
    if (!this.#passingOver) return 0;
    const lineEnd = this.#text.indexOf('\n');
    this.#passingOver = lineEnd < 0;
    return lineEnd < 0 ? this.#text.length : lineEnd + 1;
  }

  /** Reads whole lines; gives the place of the first record not given out, and whether it needs care. */
  #byPapaparse(from: number, to: number): { at: number; withCare: boolean } {
    const text = this.#text;
    // Papaparse drops a byte order mark from what it is given, and with it the count of its places.
    if (text.charCodeAt(from) === 0xfeff) return { at: from, withCare: true };
    const stop = { at: from, withCare: false };
    Papa.parse<string[]>(text.slice(from, to), {
      delimiter: this.#delimiter,
      newline: '\n',
      quoteChar: '"',
      header: false,
      dynamicTyping: false,
      skipEmptyLines: false,
      fastMode: false,
      // After the last line end papaparse gives one more record, of nothing.
      step: ({ data, errors, meta }, parser) => {
        if (stop.at < to && !this.#row(data, errors.length > 0, from + meta.cursor, stop)) parser.abort();
      }
    });
    return stop;
  }

  /** Takes a record of papaparse's that starts at `stop.at`; false where papaparse is not to go on. */
  #row(cells: string[], isFaulty: boolean, end: number, stop: { at: number; withCare: boolean }): boolean {
    if (!isFaulty && !needsCare(this.#text, stop.at, end)) {
      this.#record.setCells(cells, this.#text, stop.at, end);
      this.#giveOut(stop.at, end, 1, []);
      stop.at = end;
    } else if (this.#oneWithCare(stop.at, false)) {
      stop.at = this.#careful.end;
      stop.withCare = stop.at !== end;
    } else {
      stop.withCare = true;
    }
    return !stop.withCare && !this.#state.stopped;
  }

  /** Reads the records from a place on one by one; gives the place of the first that is not complete. */
  #withCare(from: number, last: boolean): number {
    let at = from;
    while (at < this.#text.length && !this.#state.stopped && this.#oneWithCare(at, last)) {
      at = this.#careful.end;
    }
    return at;
  }

  /** Reads and gives out one record; false where its end is still to come. */
  #oneWithCare(at: number, last: boolean): boolean {
    const careful = this.#careful;
    const result = careful.read(this.#text, at, last, this.#state.usual.value);
    if (result === 'more') return false;
    const end = result === 'tooLong' ? at + longestRecord : careful.end;
    const lineFeeds = countLineFeeds(this.#text, at, end);
    this.#record.setScan(careful.scan, this.#text);
    this.#passingOver = careful.cut;
    const open = result === 'tooLong' || !careful.terminated;
    this.#giveOut(at, end, lineFeeds + (open ? 1 : 0), this.#formFaults(result, at));
    return true;
  }

  #formFaults(result: CarefulResult, at: number): FormFault[] {
    const { scan, terminated } = this.#careful;
    const line = this.#state.line;
    if (result === 'tooLong') return [{ code: 'recordTooLong', line }];
    const faults: FormFault[] = [];
    if (result === 'unclosed') {
      faults.push({ code: 'quoteUnclosed', line: line + countLineFeeds(this.#text, at, scan.openAt) });
    }
    if (scan.brokenAt >= 0) {
      faults.push({ code: 'textAfterQuote', line: line + countLineFeeds(this.#text, at, scan.brokenAt) });
    }
    const tooFew = scan.count < this.#state.usual.value;
    if (!terminated && (tooFew || result === 'unclosed' || this.#text.endsWith('\ufffd'))) {
      faults.push({ code: 'endsInMidRecord', line });
    }
    return faults;
  }

  #giveOut(start: number, end: number, lines: number, faults: FormFault[]): void {
    const record = this.#record;
    record.line = this.#state.line;
    record.lines = lines;
    if (!faults.some((fault) => hidesCells(fault.code))) this.#state.usual.add(record.cellCount);
    if (this.#faultyAt < end) {
      faults.push(...characterFaults(this.#text, start, end, record.line));
      this.#findFaultyUnit(end);
    }
    this.#state.give(record, faults);
  }
}

/** Faults after which the cells of a record say nothing of the table. */
function hidesCells(code: FormFaultCode): boolean {
  return code === 'recordTooLong' || code === 'quoteUnclosed' || code === 'textAfterQuote';
}

/** What papaparse reads well enough, but not as `CarefulReader` would in every case. */
function needsCare(text: string, start: number, end: number): boolean {
  if (end - start > mostBlanks && text.slice(start, end).includes('"')) return true;
  return end - start > longestRecord || text.indexOf('\n', start) < end - 1;
}

function countLineFeeds(text: string, from: number, to: number): number {
  let count = 0;
  for (let at = text.indexOf('\n', from); at >= 0 && at < to; at = text.indexOf('\n', at + 1)) count++;
  return count;
}
