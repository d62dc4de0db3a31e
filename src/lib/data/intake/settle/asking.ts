import { questionText, readingWords, type QuestionKind, type ReadingWord } from '#lib/data/words/index.ts';
import type { Question, Reading, ReadingSample } from '../question.ts';

/** A question before anyone has answered it. */
export interface Ask {
  readonly id: string;
  readonly kind: QuestionKind;
  readonly column: number | null;
  /** Header of the column, or the label of a field, for the words of the question. */
  readonly about: string;
  readonly word?: string;
  readonly count: number;
  readonly readings: readonly Reading[];
  readonly other?: 'zone' | 'constant';
  readonly byDefault?: string;
}

/** Collects the questions of a file and hands back the answers in hand. */
export class Asking {
  readonly questions: Question[] = [];
  readonly #answers: ReadonlyMap<string, string>;
  readonly #isOther: (kind: 'zone' | 'constant', answer: string) => boolean;

  constructor(
    answers: ReadonlyMap<string, string>,
    isOther: (kind: 'zone' | 'constant', answer: string) => boolean
  ) {
    this.#answers = answers;
    this.#isOther = isOther;
  }

  /** The same answers and no question yet; `take` keeps of its questions those that have an answer. */
  onlyAnswered(): Asking {
    return new Asking(this.#answers, this.#isOther);
  }

  take(other: Asking): void {
    this.questions.push(...other.questions.filter(({ answer }) => answer !== null));
  }

  /** An answer given by id whether or not it was asked. */
  given(id: string): string | null {
    return this.#answers.get(id) ?? null;
  }

  /** Asks, and returns the answer in hand, the default, or null while there is neither. Nothing is asked twice. */
  ask(ask: Ask): string | null {
    const before = this.questions.find(({ id }) => id === ask.id);
    if (before !== undefined) return before.answer ?? before.byDefault;
    const given = this.#answers.get(ask.id) ?? null;
    const other = ask.other ?? null;
    const isReading = ask.readings.some((reading) => reading.id === given);
    const isValid = given !== null && (isReading || (other !== null && this.#isOther(other, given)));
    const answer = isValid ? given : null;
    this.questions.push({
      id: ask.id,
      kind: ask.kind,
      column: ask.column,
      text: questionText(ask.kind, ask.about, ask.word),
      count: ask.count,
      readings: ask.readings,
      other,
      byDefault: ask.byDefault ?? null,
      answer
    });
    return answer ?? ask.byDefault ?? null;
  }
}

/** A reading whose words are in the common list. */
export function wordedReading(id: ReadingWord, samples: readonly ReadingSample[] = []): Reading {
  return { id, words: readingWords[id], samples };
}
