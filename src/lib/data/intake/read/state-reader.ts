import { CodeColumn, Dictionary, type ColumnSet } from '#lib/data/columns/index.ts';
import { checkStates, fieldNamed, splitKey } from '#lib/data/record/index.ts';
import type { ReasonCode } from '#lib/data/words/index.ts';
import { foldWord } from '../evidence/word-evidence.ts';
import type { StateReading } from '../layout.ts';
import { numberFit } from '../numbers/shape.ts';
import { scanNumber } from '../tokenise/scan-number.ts';
import { longestBlock, type RecordBlock, type RecordView } from '../tokeniser.ts';
import type { CellReader } from './cell-reader.ts';

const unknown = -1;

/** Names of the states of a field in the order of their codes; code 0 is not recorded. */
export function stateTexts(key: string): readonly string[] {
  const field = fieldNamed(splitKey(key).name);
  if (field.kind === 'check') return checkStates.slice(1);
  if (field.kind === 'choice') return field.choices;
  throw new TypeError(`column key: ${key}, need a check or a choice`);
}

/** Reads the words of a check or choice column as its states. */
export class StateReader implements CellReader {
  readonly key: string;
  readonly cell: number;
  readonly failedCell: number;
  readonly reason: ReasonCode = 'wordUnknown';
  readonly #words: ReadonlyMap<string, string>;
  readonly #ppmLimit: number | null;
  readonly #states = new Dictionary();
  readonly #typed = new Dictionary();
  /** State code by the code of the typed word. */
  readonly #codes: number[] = [0];
  readonly #block = new Uint32Array(longestBlock);
  #column = new CodeColumn();

  constructor(reading: StateReading) {
    this.key = reading.key;
    this.cell = reading.column;
    this.failedCell = reading.column;
    this.#words = new Map(reading.words);
    this.#ppmLimit = reading.ppmLimit;
    for (const text of stateTexts(reading.key)) this.#states.code(text);
  }

  bind(set: ColumnSet, rows: number): void {
    this.#column = new CodeColumn(this.#states, rows);
    set.put(this.key, this.#column);
  }

  read(record: RecordView): boolean {
    const code = this.#stateOf(record.code(this.cell, this.#typed));
    if (code === unknown) return false;
    this.#column.push(code);
    return true;
  }

  readBlock(block: RecordBlock, odd: Uint8Array): void {
    const codes = this.#block;
    block.codes(this.cell, this.#typed, codes, odd);
    for (let i = 0; i < block.count; i++) {
      if (odd[i] !== 0) continue;
      const code = this.#stateOf(codes[i] as number);
      if (code === unknown) odd[i] = 1;
      else codes[i] = code;
    }
  }

  pushBlock(_block: RecordBlock, from: number, to: number): void {
    this.#column.pushAll(this.#block, from, to);
  }

  #stateOf(typed: number): number {
    return (this.#codes[typed] ??= this.#codeOf(this.#typed.text(typed)));
  }

  #codeOf(text: string): number {
    const state = this.#words.get(foldWord(text)) ?? this.#judged(text);
    if (state === undefined) return unknown;
    return state === 'notRecorded' ? 0 : (this.#states.find(state) ?? unknown);
  }

  #judged(text: string): string | undefined {
    if (this.#ppmLimit === null) return undefined;
    const fit = numberFit(text.trim());
    const marks = fit.dot ?? fit.comma;
    if (marks === null || fit.shape === 'either') return undefined;
    return scanNumber(text, marks) > this.#ppmLimit ? 'failed' : 'passed';
  }
}
