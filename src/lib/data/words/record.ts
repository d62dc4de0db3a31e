import { computedNamed, fieldNamed, splitKey } from '#lib/data/record/index.ts';
import { causeOutcomeWords, causeWords } from './causes.ts';
import { limitBaseWords, markWords } from './ledger.ts';
import {
  checkStateWords,
  densityCaseWords,
  qualityWords,
  reconciliationReasonWords,
  verdictWords
} from './reconciliation.ts';

function wordOf(words: Readonly<Record<string, string>>, code: string): string {
  return words[code] ?? code;
}

function qualityOf(codes: string): string {
  const [quality = '', ...reasons] = codes.split(' ');
  const why = reasons.map((code) => wordOf(reconciliationReasonWords, code)).join(', ');
  return why === '' ? wordOf(qualityWords, quality) : `${wordOf(qualityWords, quality)} (${why})`;
}

const computedCodes: Readonly<Record<string, (codes: string) => string>> = {
  densityCase: (code) => wordOf(densityCaseWords, code),
  limitBase: (code) => wordOf(limitBaseWords, code),
  verdict: (code) => wordOf(verdictWords, code),
  likelyCause: (code) => wordOf({ ...causeWords, ...causeOutcomeWords }, code),
  quality: qualityOf,
  marks: (codes) =>
    codes
      .split(' ')
      .map((code) => wordOf(markWords, code))
      .join('; ')
};

const choiceWords: Readonly<Record<string, string>> = {
  hydrometer: 'hydrometer',
  densitometer: 'densitometer',
  inLine: 'in-line',
  totalOnBoard: 'total on board',
  amountToAdd: 'amount to add'
};

/** The words of a coded value in a column; a text that is no code is given back as it is. '' stays ''. */
export function valueWords(key: string, text: string): string {
  if (text === '') return '';
  const computed = computedCodes[key];
  if (computed !== undefined) return computed(text);
  if (computedNamed(key) !== undefined) return text;
  const { name } = splitKey(key);
  const { kind } = fieldNamed(name);
  if (kind === 'check') return wordOf(checkStateWords, text);
  return kind === 'choice' ? wordOf(choiceWords, text) : text;
}

/** The label of a column, with the member of a family behind it. */
export function columnLabel(key: string): string {
  const computed = computedNamed(key);
  if (computed !== undefined) return computed.label;
  const { name, member } = splitKey(key);
  const { label } = fieldNamed(name);
  return member === null ? label : `${label}: ${member}`;
}

/** The unit of a column, '' where it has none. */
export function columnUnit(key: string): string {
  const computed = computedNamed(key);
  if (computed !== undefined) return computed.unit;
  const { name } = splitKey(key);
  const field = fieldNamed(name);
  if (field.kind === 'time') return 'UTC';
  return field.kind === 'number' ? field.unit : '';
}
