import { unitsNamed, type UnitCode } from '#lib/core/units/index.ts';
import {
  familyKey,
  headerLanguages,
  upliftFields,
  type ColumnKey,
  type FieldDefinition,
  type FieldName,
  type HeaderWords
} from '#lib/data/record/index.ts';
import { bracketOf, headerWordsOf } from './text.ts';

/** A field that a header may stand for. */
export interface HeaderMatch {
  readonly key: ColumnKey;
  /** Higher is better; only the order of the scores means anything. */
  readonly score: number;
  /** The whole header is one of the field's phrases, its unit aside. */
  readonly exact: boolean;
  /** Units that the header names: none, one, or several where the name is ambiguous. */
  readonly units: readonly UnitCode[];
}

/** Words that may stand beside a phrase without changing what it means. */
const fillers = new Set(
  (
    'fuel fuelling refuelling uplift uplifted aircraft ac the of on in at for by and utc gmt z zulu local lt c f deg ' +
    'degree code id name icao iata actual value figure reading gauge indicated delivered ' +
    'de du des la le les l d en a au der die das am im vom el los del los y e et und do da dos das em no na di della ' +
    'al il lo carburant combustible combustivel carburante kraftstoff treibstoff avion flugzeug avion aeronave aereo'
  ).split(' ')
);

interface Phrase {
  readonly field: FieldDefinition & { readonly name: FieldName };
  readonly words: readonly string[];
}

function wordsOf(headerWords: HeaderWords): string[] {
  return headerLanguages.flatMap((language) => [...(headerWords[language] ?? [])]);
}

const phrases: readonly Phrase[] = upliftFields.flatMap((field) =>
  [field.label, ...wordsOf(field.headerWords)].map((text) => ({ field, words: headerWordsOf(text) }))
);

/** The place of `part` in `whole` as a run, -1 where it is none. */
function runAt(whole: readonly string[], part: readonly string[]): number {
  for (let start = 0; start + part.length <= whole.length; start++) {
    if (part.every((word, i) => whole[start + i] === word)) return start;
  }
  return -1;
}

/** The unit at the end of a header's words, and how many words it takes. */
function unitAtEnd(
  field: FieldDefinition,
  words: readonly string[]
): { units: readonly UnitCode[]; taken: number } {
  if (field.kind !== 'number') return { units: [], taken: 0 };
  for (let taken = Math.min(4, words.length); taken >= 1; taken--) {
    const units = unitsNamed(field.quantity, words.slice(-taken).join(' '));
    if (units.length > 0) return { units, taken };
  }
  return { units: [], taken: 0 };
}

function scoreOf(matched: number, left: readonly string[]): number | null {
  const strange = left.filter((word) => !fillers.has(word)).length;
  if (strange > 1 || (strange === 1 && matched < 2)) return null;
  return 100 * matched - 60 * strange - 10 * (left.length - strange) + (left.length === 0 ? 50 : 0);
}

function matchPhrase(
  phrase: Phrase,
  words: readonly string[],
  units: readonly UnitCode[]
): HeaderMatch | null {
  const { field } = phrase;
  if (field.kind === 'number' && field.family === true) return matchFamily(phrase, words, units);
  const start = runAt(words, phrase.words);
  if (start < 0) return null;
  const left = words.filter((_, i) => i < start || i >= start + phrase.words.length);
  const score = scoreOf(phrase.words.length, left);
  return score === null ? null : { key: field.name, score, exact: left.length === 0, units };
}

/** A family's header names the member beside the phrase, in any order: `Left tank after`. */
function matchFamily(
  phrase: Phrase,
  words: readonly string[],
  units: readonly UnitCode[]
): HeaderMatch | null {
  if (!phrase.words.every((word) => words.includes(word))) return null;
  const member = words.filter((word) => !phrase.words.includes(word) && !fillers.has(word));
  if (member.length < 1 || member.length > 3) return null;
  const key = familyKey(phrase.field.name, member.join(' '));
  return { key, score: 100 * phrase.words.length + 40, exact: true, units };
}

/**
 * Fields that a header may stand for, best first, each once. A header whose unit belongs to another quantity than the
 * field's is no match: litres never head a mass.
 */
export function matchHeader(header: string): HeaderMatch[] {
  const { outside, inside } = bracketOf(header);
  const best = new Map<ColumnKey, HeaderMatch>();
  for (const phrase of phrases) {
    for (const candidate of readings(phrase, header, outside, inside)) {
      const known = best.get(candidate.key);
      if (known === undefined || candidate.score > known.score) best.set(candidate.key, candidate);
    }
  }
  return [...best.values()].sort((a, b) => b.score - a.score);
}

function readings(phrase: Phrase, header: string, outside: string, inside: string | null): HeaderMatch[] {
  const found: HeaderMatch[] = [];
  const add = (match: HeaderMatch | null) => {
    if (match !== null) found.push(match);
  };
  const { field } = phrase;
  if (inside !== null && field.kind === 'number') {
    const units = unitsNamed(field.quantity, inside);
    if (units.length > 0) {
      add(matchPhrase(phrase, headerWordsOf(outside), units));
      return found;
    }
    if (namesOtherUnit(field.quantity, inside)) return found;
  }
  const words = headerWordsOf(header);
  const { units, taken } = unitAtEnd(field, words);
  if (taken > 0 && taken < words.length) add(matchPhrase(phrase, words.slice(0, -taken), units));
  const isOther =
    taken === 0 && field.kind === 'number' && field.family !== true && endsInOtherUnit(field.quantity, words);
  if (!isOther) add(matchPhrase(phrase, words, units));
  return found;
}

const quantities = [
  'volume',
  'mass',
  'density',
  'temperature',
  'conductivity',
  'duration',
  'particulate',
  'pressure'
] as const;

/** True where a text is a unit, but none of this quantity. */
export function namesOtherUnit(quantity: string, text: string): boolean {
  return quantities.some((other) => other !== quantity && unitsNamed(other, text).length > 0);
}

function endsInOtherUnit(quantity: string, words: readonly string[]): boolean {
  // In "density at 15 C" the degree belongs to the figure before it.
  if (/^\d+$/.test(words[words.length - 2] ?? '')) return false;
  for (let taken = Math.min(4, words.length - 1); taken >= 1; taken--) {
    if (namesOtherUnit(quantity, words.slice(-taken).join(' '))) return true;
  }
  return false;
}

/** The clock that a header states for its times. */
export function headerZone(header: string): 'utc' | 'local' | null {
  const words = headerWordsOf(header);
  if (words.some((word) => word === 'utc' || word === 'gmt' || word === 'zulu' || word === 'z')) return 'utc';
  return words.some((word) => word === 'local' || word === 'lt' || word === 'lcl') ? 'local' : null;
}
