import type { CheckField, ChoiceField } from '#lib/data/record/index.ts';
import type { ReadingWord } from '#lib/data/words/index.ts';
import { plainCheckState, plainChoice } from '../checks.ts';
import { numberFit } from '../numbers/shape.ts';
import type { WordCount, WordEvidence } from '../evidence/word-evidence.ts';
import type { ReadingSample } from '../question.ts';
import { wordedReading, type Asking } from './asking.ts';

/** What the words of a check or choice column mean. */
export interface SettledStates {
  readonly words: readonly (readonly [string, string])[];
  readonly ppmLimit: number | null;
  readonly agree: number;
  readonly disagree: number;
}

const checkReadings = ['passed', 'failed', 'notDone', 'notRecorded', 'notRequired'] as const;

function isNumber(word: string): boolean {
  return numberFit(word).shape !== 'bad';
}

/**
 * Settles the meaning of each word, asking for those that are not plain; null while a question is open. Figures in a
 * water check that are more than the marks 0 and 1 are ppm and are judged against a limit that is asked.
 */
export function settleStates(
  evidence: WordEvidence,
  field: CheckField | ChoiceField,
  fieldName: string,
  column: number,
  header: string,
  asking: Asking
): SettledStates | null {
  const figures = [...evidence.words].filter(([word]) => isNumber(word));
  const isPpm = fieldName === 'waterTest' && figures.some(([word]) => word !== '0' && word !== '1');
  const ppmLimit = isPpm ? askPpm(figures, column, header, asking) : null;
  const words: (readonly [string, string])[] = [];
  let isOpen = isPpm && ppmLimit === null;
  let agree = isPpm ? evidence.figuresBeyond : 0;
  for (const [word, found] of evidence.words) {
    if (isPpm && isNumber(word)) {
      agree += found.count;
      continue;
    }
    const meaning = meaningOf(word, found, field, column, header, asking);
    if (meaning === null) isOpen = true;
    else words.push([word, meaning]);
    agree += found.count;
  }
  const disagree = evidence.beyond + (isPpm ? 0 : evidence.figuresBeyond);
  return isOpen ? null : { words, ppmLimit, agree, disagree };
}

function samplesOf(found: WordCount): readonly ReadingSample[] {
  return found.samples.map(({ line, text }) => ({ line, text, reading: text }));
}

function meaningOf(
  word: string,
  found: WordCount,
  field: CheckField | ChoiceField,
  column: number,
  header: string,
  asking: Asking
): string | null {
  const id = `word:${column}:${word}`;
  const plain = field.kind === 'check' ? plainCheckState(word) : plainChoice(word, field.choices);
  const allowed: readonly string[] = field.kind === 'check' ? checkReadings : field.choices;
  const given = asking.given(id);
  if (plain !== null) return given !== null && allowed.includes(given) ? given : plain;
  return asking.ask({
    id,
    kind: 'word',
    column,
    about: header,
    word: found.typed,
    count: found.count,
    readings: allowed.filter(isReadingWord).map((reading) => wordedReading(reading, samplesOf(found)))
  });
}

const readingWordList: readonly string[] = [
  ...checkReadings,
  'hydrometer',
  'densitometer',
  'inLine',
  'totalOnBoard',
  'amountToAdd'
];

function isReadingWord(word: string): word is ReadingWord {
  return readingWordList.includes(word);
}

/** Limits in use for free water, ppm: 10 (MIL-STD-1518E), 15 (secondary source), 30 (IATA guidance, FAA AC 20-125). */
const ppmLimits = [10, 15, 30] as const;

function askPpm(
  figures: readonly (readonly [string, WordCount])[],
  column: number,
  header: string,
  asking: Asking
): number | null {
  const shown = figures.slice(0, 3).flatMap(([, found]) => found.samples.slice(0, 1));
  const answer = asking.ask({
    id: `ppmLimit:${column}`,
    kind: 'ppmLimit',
    column,
    about: header,
    count: figures.reduce((total, [, found]) => total + found.count, 0),
    readings: ppmLimits.map((limit) => ({
      id: String(limit),
      words: `${limit} ppm`,
      samples: shown.map(({ line, text }) => {
        const value = Number(text.replace(',', '.'));
        return { line, text, reading: value > limit ? 'failed' : 'passed' };
      })
    }))
  });
  return answer === null ? null : Number(answer);
}
