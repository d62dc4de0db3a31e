import { questionText } from '#lib/data/words/index.ts';
import type { FileBasis } from '../inspection.ts';
import type { Question } from '../question.ts';
import { settleExport } from './own-export.ts';
import { settle, type Settled } from './settle.ts';

/** Settles a file with the answers in hand; a file of this program's own needs none. */
export function settleBasis(basis: FileBasis, answers: ReadonlyMap<string, string>): Settled {
  return basis.ownExport ? settleExport(basis) : settle(basis.evidence, answers, basis.stationZones);
}

const delimiterNames: Readonly<Record<string, string>> = {
  ',': 'comma',
  ';': 'semicolon',
  '\t': 'tab',
  '|': 'bar'
};

/** The questions about the file as a whole, then those about its columns. */
export function questionsOf(
  basis: FileBasis,
  settled: Settled,
  answers: ReadonlyMap<string, string>
): Question[] {
  if (basis.otherDelimiters.length === 0) return [...settled.questions];
  const delimiters = [basis.dialect.delimiter, ...basis.otherDelimiters];
  const answer = answers.get('delimiter') ?? null;
  const delimiter: Question = {
    id: 'delimiter',
    kind: 'delimiter',
    column: null,
    text: questionText('delimiter', ''),
    count: 0,
    readings: delimiters.map((mark) => ({ id: mark, words: delimiterNames[mark] ?? mark, samples: [] })),
    other: null,
    byDefault: null,
    answer: delimiters.includes(answer ?? '') ? answer : null
  };
  // Until it is answered the columns are not known, and to ask about them would confuse.
  return delimiter.answer === null ? [delimiter] : [delimiter, ...settled.questions];
}
