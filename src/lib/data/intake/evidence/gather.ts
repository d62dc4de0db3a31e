import { isMissingMarker } from '../numbers/shape.ts';
import type { RecordView } from '../tokeniser.ts';
import { addNumber, newNumberEvidence, type NumberEvidence } from './number-evidence.ts';
import { keepSample, type CellSample } from './samples.ts';
import { addTime, newTimeEvidence, type TimeEvidence } from './time-evidence.ts';
import { addWord, newWordEvidence, type WordEvidence } from './word-evidence.ts';

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

export function newColumnEvidence(wanted: Wanted): ColumnEvidence {
  return {
    filled: 0,
    number: wanted.number ? newNumberEvidence() : null,
    time: wanted.time ? newTimeEvidence() : null,
    words: wanted.words ? newWordEvidence() : null,
    missing: new Map(),
    samples: []
  };
}

/** Adds one cell of a record. */
export function addCell(evidence: ColumnEvidence, record: RecordView, cell: number): void {
  if (record.isEmpty(cell)) return;
  evidence.filled++;
  if (evidence.samples.length < 3) keepSample(evidence.samples, record.line, record.text(cell));
  const { number, time, words } = evidence;
  if (words !== null) addWord(words, record.text(cell), record.line);
  if (time !== null) addTime(time, record.text(cell), record.line);
  if (number === null) return;
  const bad = number.bad;
  addNumber(number, record, cell);
  if (number.bad > bad) forgiveMarker(evidence, number, record.text(cell));
}

/** A word for "no figure" is no bad number. */
function forgiveMarker(evidence: ColumnEvidence, number: NumberEvidence, text: string): void {
  if (!isMissingMarker(text)) return;
  number.bad--;
  if (number.samples.bad.length > 0 && number.bad < number.samples.bad.length) number.samples.bad.pop();
  const word = text.trim();
  evidence.missing.set(word, (evidence.missing.get(word) ?? 0) + 1);
}
