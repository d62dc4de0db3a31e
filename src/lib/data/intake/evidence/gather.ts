import { isMissingMarker } from '../numbers/shape.ts';
import { longestBlock, type RecordBlock, type RecordView } from '../tokeniser.ts';
import {
  addNumber,
  addPlainNumbers,
  decimalOf,
  newNumberEvidence,
  type NumberEvidence
} from './number-evidence.ts';
import { keepSample, type CellSample } from './samples.ts';
import { addInstant, addTime, newTimeEvidence, type TimeEvidence } from './time-evidence.ts';
import { WordCounter, type WordEvidence } from './word-evidence.ts';

/** Which kinds of evidence a column is searched for; the others stay null. */
export interface Wanted {
  readonly number: boolean;
  readonly time: boolean;
  readonly words: boolean;
}

/** All that one pass over a file found out about one column. */
export interface ColumnEvidence {
  filled: number;
  readonly number: NumberEvidence | null;
  readonly time: TimeEvidence | null;
  readonly words: WordEvidence | null;
  /** Cells with a word for "no figure", by the word as first typed. */
  readonly missing: Map<string, number>;
  readonly samples: CellSample[];
}

/** What a block says of one column: filled anew for each column, and read before the next is asked for. */
const values = new Float64Array(longestBlock);
const looks = new Uint8Array(longestBlock);

/** Gathers the evidence of one column, cell by cell. */
export class ColumnGatherer {
  readonly evidence: ColumnEvidence;
  readonly #cell: number;
  readonly #words: WordCounter | null;

  constructor(cell: number, wanted: Wanted) {
    this.#cell = cell;
    this.#words = wanted.words ? new WordCounter() : null;
    this.evidence = {
      filled: 0,
      number: wanted.number ? newNumberEvidence() : null,
      time: wanted.time ? newTimeEvidence() : null,
      words: this.#words?.evidence ?? null,
      missing: new Map(),
      samples: []
    };
  }

  add(record: RecordView): void {
    const cell = this.#cell;
    if (record.isEmpty(cell)) return;
    const { evidence } = this;
    evidence.filled++;
    if (evidence.samples.length < 3) keepSample(evidence.samples, record.line, record.text(cell));
    if (this.#words !== null) this.#words.add(record, cell);
    if (evidence.time !== null) addTime(evidence.time, record.text(cell), record.line);
    this.#addNumber(record);
  }

  #addNumber(record: RecordView): void {
    const { evidence } = this;
    const { number } = evidence;
    if (number === null) return;
    const bad = number.bad;
    addNumber(number, record, this.#cell);
    if (number.bad > bad) forgiveMarker(evidence, number, record.text(this.#cell));
  }

  /** The same for records [from, to) of a block. */
  addBlock(block: RecordBlock, from: number, to: number): void {
    const { evidence } = this;
    let at = from;
    while (at < to && evidence.samples.length < 3) this.add(block.record(at++));
    if (at === to) return;
    this.#countFilled(block, at, to);
    this.#words?.addBlock(block, at, to, this.#cell);
    if (evidence.time !== null) this.#addTimes(block, at, to, evidence.time);
    if (evidence.number !== null) this.#addNumbers(block, at, to, evidence.number);
  }

  #countFilled(block: RecordBlock, from: number, to: number): void {
    block.empties(this.#cell, looks);
    let empty = 0;
    for (let i = from; i < to; i++) empty += looks[i] as number;
    this.evidence.filled += to - from - empty;
  }

  #addTimes(block: RecordBlock, from: number, to: number, time: TimeEvidence): void {
    block.instants(this.#cell, values, looks);
    for (let i = from; i < to; i++) {
      if (time.samples.length === 3 && values[i] === values[i]) {
        addInstant(time, looks[i] === 1);
        continue;
      }
      const record = block.record(i);
      if (!record.isEmpty(this.#cell)) addTime(time, record.text(this.#cell), record.line);
    }
  }

  #addNumbers(block: RecordBlock, from: number, to: number, number: NumberEvidence): void {
    let decimal = decimalOf(number);
    block.numbers(this.#cell, decimal, values, looks);
    let at = from;
    while (at < to) {
      at = addPlainNumbers(number, values, looks, at, to, decimal);
      if (at === to) return;
      const record = block.record(at++);
      if (!record.isEmpty(this.#cell)) this.#addNumber(record);
      if (decimalOf(number) === decimal) continue;
      decimal = decimalOf(number);
      block.numbers(this.#cell, decimal, values, looks);
    }
  }
}

/** A word for "no figure" is no bad number. */
function forgiveMarker(evidence: ColumnEvidence, number: NumberEvidence, text: string): void {
  if (!isMissingMarker(text)) return;
  number.bad--;
  if (number.samples.bad.length > 0 && number.bad < number.samples.bad.length) number.samples.bad.pop();
  const word = text.trim();
  evidence.missing.set(word, (evidence.missing.get(word) ?? 0) + 1);
}
