import { CodeColumn, Dictionary, TextColumn, type ColumnSet } from '#lib/data/columns/index.ts';
import type { ReasonCode } from '#lib/data/words/index.ts';
import { isMissingMarker } from '../numbers/shape.ts';
import { longestBlock, type RecordBlock, type RecordView } from '../tokeniser.ts';
import type { CellReader } from './cell-reader.ts';
import { isTotalName } from './shape.ts';

/** A text of this program's own export with the guard against formulas taken off. */
export function unguarded(text: string): string {
  return text.startsWith("'") ? text.slice(1) : text;
}

/** Puts a code column over a dictionary that goes on through all batches of a file. */
function bindCode(set: ColumnSet, key: string, dictionary: Dictionary, rows: number): CodeColumn {
  const column = new CodeColumn(dictionary, rows);
  set.put(key, column);
  return column;
}

/** Reads a name (station, tail, vehicle) as a code. */
export class NameReader implements CellReader {
  readonly key: string;
  readonly cell: number;
  readonly failedCell: number;
  readonly reason: ReasonCode = 'missingStation';
  readonly #isGuarded: boolean;
  readonly #dictionary = new Dictionary();
  /** Texts of an own export as written, with the code of the text they stand for. */
  readonly #guarded = new Dictionary();
  readonly #codes: number[] = [0];
  /** Whether a code is of a word for "none", found out once per code. */
  readonly #isMarker: (boolean | undefined)[] = [true];
  /** Whether a code is of a word for a total, in the names that a total is drawn under. */
  readonly #isTotal: (boolean | undefined)[] = [false];
  readonly #mayNameTotal: boolean;
  /** Whether the last cell read was blank or such a word. */
  wasMissing = false;
  /** The same for the records of the block last read: 1 or 0. */
  readonly missing = new Uint8Array(longestBlock);
  readonly #block = new Uint32Array(longestBlock);
  #column = new CodeColumn();

  constructor(key: string, cell: number, isGuarded: boolean) {
    this.key = key;
    this.cell = cell;
    this.failedCell = cell;
    this.#isGuarded = isGuarded;
    this.#mayNameTotal = key === 'station' || key === 'tail';
  }

  bind(set: ColumnSet, rows: number): void {
    this.#column = bindCode(set, this.key, this.#dictionary, rows);
  }

  read(record: RecordView): boolean {
    const code = this.#isGuarded
      ? this.#unguardedCode(record.code(this.cell, this.#guarded))
      : record.code(this.cell, this.#dictionary);
    this.wasMissing = this.#isMissingCode(code);
    this.#column.push(code);
    return true;
  }

  readBlock(block: RecordBlock, odd: Uint8Array): void {
    const codes = this.#block;
    block.codes(this.cell, this.#isGuarded ? this.#guarded : this.#dictionary, codes, odd);
    for (let i = 0; i < block.count; i++) {
      if (odd[i] !== 0) continue;
      const code = codes[i] as number;
      if (this.#isGuarded) codes[i] = this.#unguardedCode(code);
      this.missing[i] = this.#isMissingCode(codes[i] as number) ? 1 : 0;
      if (this.#mayNameTotal && this.#isTotalCode(codes[i] as number)) odd[i] = 1;
    }
  }

  pushBlock(_block: RecordBlock, from: number, to: number): void {
    this.#column.pushAll(this.#block, from, to);
  }

  #isMissingCode(code: number): boolean {
    return (this.#isMarker[code] ??= this.#isMarkerText(this.#dictionary.text(code)));
  }

  #isTotalCode(code: number): boolean {
    return (this.#isTotal[code] ??= isTotalName(this.#dictionary.text(code)));
  }

  #isMarkerText(text: string): boolean {
    return !this.#isGuarded && isMissingMarker(text);
  }

  /** True where the cell is blank or a word for "none". */
  isMissing(record: RecordView): boolean {
    return record.isEmpty(this.cell) || this.#isMarkerText(record.text(this.cell));
  }

  #unguardedCode(written: number): number {
    let code = this.#codes[written];
    if (code === undefined) {
      code = this.#dictionary.code(unguarded(this.#guarded.text(written)));
      this.#codes[written] = code;
    }
    return code;
  }
}

/** Bytes that a word for a total, or a blank before it, begins with. */
const isTotalInitial = new Uint8Array(256);
for (const byte of new TextEncoder().encode(' tTsSgG')) isTotalInitial[byte] = 1;

/** Reads free text as it was typed, blanks at both ends left out. */
export class TextReader implements CellReader {
  readonly key: string;
  readonly cell: number;
  readonly failedCell: number;
  readonly reason: ReasonCode = 'recordTooLong';
  readonly #isGuarded: boolean;
  readonly #initials = new Uint8Array(longestBlock);
  #column = new TextColumn();

  constructor(key: string, cell: number, isGuarded: boolean) {
    this.key = key;
    this.cell = cell;
    this.failedCell = cell;
    this.#isGuarded = isGuarded;
  }

  bind(set: ColumnSet): void {
    this.#column = set.text(this.key);
  }

  read(record: RecordView): boolean {
    const text = record.text(this.cell).trim();
    this.#column.push(this.#isGuarded ? unguarded(text) : text);
    return true;
  }

  readBlock(block: RecordBlock, odd: Uint8Array): void {
    // Any cell is a text: it is read when it is added. A total is drawn under a ticket's place at the most.
    if (this.key !== 'ticket') return;
    block.initials(this.cell, this.#initials);
    for (let i = 0; i < block.count; i++) {
      const initial = this.#initials[i] as number;
      if (isTotalInitial[initial] === 1 && isTotalName(block.record(i).text(this.cell))) odd[i] = 1;
    }
  }

  pushBlock(block: RecordBlock, from: number, to: number): void {
    if (!this.#isGuarded) block.texts(this.cell, from, to, this.#column);
    else for (let i = from; i < to; i++) this.read(block.record(i));
  }
}

/** Writes the same code on every record. */
export class ConstantReader implements CellReader {
  readonly key: string;
  readonly cell = -1;
  readonly failedCell = -1;
  readonly reason: ReasonCode = 'wordUnknown';
  readonly #code: number;
  readonly #dictionary: Dictionary;
  #column = new CodeColumn();

  constructor(key: string, text: string, texts: readonly string[]) {
    this.key = key;
    this.#dictionary = new Dictionary();
    for (const known of texts) this.#dictionary.code(known);
    this.#code = this.#dictionary.code(text);
  }

  bind(set: ColumnSet, rows: number): void {
    this.#column = bindCode(set, this.key, this.#dictionary, rows);
  }

  read(): boolean {
    this.#column.push(this.#code);
    return true;
  }

  readBlock(): void {
    // It reads no cell.
  }

  pushBlock(_block: RecordBlock, from: number, to: number): void {
    for (let i = from; i < to; i++) this.#column.push(this.#code);
  }
}
