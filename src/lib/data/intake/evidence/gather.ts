import { isMissingMarker } from '../numbers/shape.ts';
import type { RecordView } from '../tokeniser.ts';
import { addNumber, newNumberEvidence, type NumberEvidence } from './number-evidence.ts';
import { keepSample, type CellSample } from './samples.ts';
import { addTime, newTimeEvidence, type TimeEvidence } from './time-evidence.ts';
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
    const { number, time } = evidence;
    if (this.#words !== null) this.#words.add(record, cell);
    if (time !== null) addTime(time, record.text(cell), record.line);
    if (number === null) return;
    const bad = number.bad;
    addNumber(number, record, cell);
    if (number.bad > bad) forgiveMarker(evidence, number, record.text(cell));
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
