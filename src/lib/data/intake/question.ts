import type { QuestionKind } from '#lib/data/words/index.ts';

/** One cell of the file as one reading understands it. */
export interface ReadingSample {
  readonly line: number;
  readonly text: string;
  readonly reading: string;
}

/** One way to read a column, with up to three real rows. */
export interface Reading {
  readonly id: string;
  readonly words: string;
  readonly samples: readonly ReadingSample[];
}

/** What the file alone does not settle. At most one of a kind per column, and per word of a check column. */
export interface Question {
  readonly id: string;
  readonly kind: QuestionKind;
  /** Index of the column, null where the question is about the file. */
  readonly column: number | null;
  readonly text: string;
  /** Cells that the answer decides about. */
  readonly count: number;
  readonly readings: readonly Reading[];
  /** Answers other than the readings: a time zone, or a code that holds for all records. */
  readonly other: 'zone' | 'constant' | null;
  /** The reading that holds while nobody answers; null: the file is not read before an answer. */
  readonly byDefault: string | null;
  readonly answer: string | null;
}

/** An answer by question id. `column:7` answers with a field's key or `none`, also where it was not asked. */
export interface Answer {
  readonly id: string;
  readonly answer: string;
}

/** Answers by id; the last one given holds. */
export function answerMap(answers: readonly Answer[]): Map<string, string> {
  return new Map(answers.map(({ id, answer }) => [id, answer]));
}
