import { unitsNamed, type Quantity, type UnitCode } from '#lib/core/units/index.ts';
import {
  familyKey,
  headerLanguages,
  upliftFields,
  type ColumnKey,
  type FieldDefinition,
  type FieldName,
  type HeaderWords
} from '#lib/data/record/index.ts';
import { isTimePattern } from '../times/index.ts';
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
    'fuel fuelling refuelling uplift uplifted aircraft ac the of on in at for by and c f deg number n numero nummer ' +
    'utc gmt ut z zulu tu tuc utz local lt lcl locale lokal lokale ' +
    'degree code id name icao iata actual value figure reading gauge indicated delivered ' +
    'de du des la le les l d en a au der die das am im vom el los del los y e et und do da dos das em no na di della ' +
    'al il lo carburant combustible combustivel carburante kraftstoff treibstoff avion flugzeug avion aeronave aereo'
  ).split(' ')
);

/** Words that make another figure of a known one: a planned fuel is no gauge reading. */
const spoilers = new Set(
  (
    'planned plan estimated estimate scheduled previous prev last next minimum min maximum max limit tolerance expected ' +
    'difference delta error correction factor price cost rate currency zone prevu prevue geplant vorherige previsto ' +
    'prevista anterior precedente'
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
const isFamily = ({ field }: Phrase): boolean => field.kind === 'number' && field.family === true;
const familyPhrases = phrases.filter(isFamily);

/** Phrases by their first word, so that a header is held against few of them. */
const phrasesByWord = new Map<string, Phrase[]>();
for (const phrase of phrases) {
  const [first] = phrase.words;
  if (first === undefined || isFamily(phrase)) continue;
  const others = phrasesByWord.get(first);
  if (others === undefined) phrasesByWord.set(first, [phrase]);
  else others.push(phrase);
}

/** The place of `part` in `whole` as a run, -1 where it is none. */
function runAt(whole: readonly string[], part: readonly string[]): number {
  for (let start = 0; start + part.length <= whole.length; start++) {
    if (part.every((word, i) => whole[start + i] === word)) return start;
  }
  return -1;
}

function scoreOf(matched: number, left: readonly string[]): number | null {
  if (left.some((word) => spoilers.has(word))) return null;
  const strange = left.filter((word) => !fillers.has(word)).length;
  if (strange > 1 || (strange === 1 && matched < 2)) return null;
  return 100 * matched - 60 * strange - 10 * (left.length - strange) + (left.length === 0 ? 50 : 0);
}

function matchPhrase(
  phrase: Phrase,
  words: readonly string[],
  units: readonly UnitCode[]
): HeaderMatch | null {
  if (isFamily(phrase)) return matchFamily(phrase, words, units);
  const start = runAt(words, phrase.words);
  if (start < 0) return null;
  const left = words.filter((_, i) => i < start || i >= start + phrase.words.length);
  const score = scoreOf(phrase.words.length, left);
  return score === null ? null : { key: phrase.field.name, score, exact: left.length === 0, units };
}

/** Words that name no tank. */
const tankFillers = new Set(['fuel', 'the', 'of', 'in', 'gauge', 'reading', 'quantity', 'contents']);

/** A family's header names the member beside the phrase, in any order: `Left tank after`. */
function matchFamily(
  phrase: Phrase,
  words: readonly string[],
  units: readonly UnitCode[]
): HeaderMatch | null {
  if (!phrase.words.every((word) => words.includes(word))) return null;
  const member = words.filter((word) => !phrase.words.includes(word) && !tankFillers.has(word));
  if (member.length < 1 || member.length > 3) return null;
  const key = familyKey(phrase.field.name, member.join(' '));
  return { key, score: 100 * phrase.words.length + 40, exact: true, units };
}

/** The number field a header would be but for its unit, which is of another quantity: `Defuelled (L)`. */
export function matchMisfit(header: string): ColumnKey | null {
  let key = knownMisfits.get(header);
  if (key === undefined) {
    key = findMisfit(header);
    if (knownMisfits.size >= mostKnown) knownMisfits.clear();
    knownMisfits.set(header, key);
  }
  return key;
}

const knownMisfits = new Map<string, ColumnKey | null>();

function findMisfit(header: string): ColumnKey | null {
  const { outside, inside } = bracketOf(header);
  const words = headerWordsOf(inside === null ? header : outside);
  const ends = inside === null ? [1, 2, 3].map((taken) => words.slice(0, -taken)) : [words];
  for (const phrase of phrases) {
    const { field } = phrase;
    if (field.kind !== 'number' || isFamily(phrase)) continue;
    // First what takes the least time: a wide file has a thousand headers that are nothing of the kind.
    if (!ends.some((stem) => matchPhrase(phrase, stem, [])?.exact === true)) continue;
    const isOther =
      inside === null ? endsInOtherUnit(field.quantity, words) : namesOtherUnit(field.quantity, inside);
    if (isOther) return field.name;
  }
  return null;
}

/** A header taken apart once, for all phrases it is held against. */
interface HeaderParts {
  readonly words: readonly string[];
  readonly outside: readonly string[];
  readonly inside: string | null;
}

/**
 * Fields that a header may stand for, best first, each once. A header whose unit belongs to another quantity than the
 * field's is no match: litres never head a mass.
 */
export function matchHeader(header: string): readonly HeaderMatch[] {
  let matches = known.get(header);
  if (matches === undefined) {
    matches = findMatches(header);
    if (known.size >= mostKnown) known.clear();
    known.set(header, matches);
  }
  return matches;
}

/** Matches by header: the head of a file holds the same texts again and again. */
const known = new Map<string, readonly HeaderMatch[]>();
const mostKnown = 2000;

/** A header in two languages, `Station / Escale`, is matched by each of its halves. */
function findMatches(header: string): HeaderMatch[] {
  const whole = matchesOf(header);
  const halves = header.slice(0, 200).split(/\s+[/|]\s+|\n/);
  if (whole.length > 0 || halves.length === 1) return whole;
  const [first = [], ...others] = halves.map(matchesOf).filter((found) => found.length > 0);
  return first.flatMap((match) => {
    const same = others.map((found) => found.find(({ key }) => key === match.key));
    if (same.includes(undefined)) return [];
    const units = [match, ...same].map((found) => found?.units ?? []).filter((named) => named.length > 0);
    return [{ ...match, units: [...new Set(units.flat())] }];
  });
}

function matchesOf(header: string): HeaderMatch[] {
  const { outside, inside } = bracketOf(header);
  // A pattern such as (DD/MM/YYYY) says how the cells are written, not what they are.
  const words = headerWordsOf(inside !== null && isTimePattern(inside) ? outside : header);
  const parts: HeaderParts = { words, outside: inside === null ? words : headerWordsOf(outside), inside };
  const candidates = [...new Set(words)].flatMap((word) => phrasesByWord.get(word) ?? []);
  const best = new Map<ColumnKey, HeaderMatch>();
  for (const phrase of [...candidates, ...familyPhrases]) {
    for (const found of readings(phrase, parts)) {
      const known = best.get(found.key);
      if (known === undefined || found.score > known.score) best.set(found.key, found);
    }
  }
  return [...best.values()].sort((a, b) => b.score - a.score);
}

function readings(phrase: Phrase, { words, outside, inside }: HeaderParts): HeaderMatch[] {
  const { field } = phrase;
  if (field.kind !== 'number') return onlyFound([matchPhrase(phrase, words, [])]);
  if (inside !== null) {
    const units = unitsNamed(field.quantity, inside);
    if (units.length > 0) return onlyFound([matchPhrase(phrase, outside, units)]);
    if (namesOtherUnit(field.quantity, inside)) return [];
  }
  const { units, taken } = unitAtEnd(field.quantity, words);
  const stripped =
    taken > 0 && taken < words.length ? matchPhrase(phrase, words.slice(0, -taken), units) : null;
  if (isFamily(phrase)) return onlyFound([stripped ?? matchPhrase(phrase, words, [])]);
  const isOther = taken === 0 && endsInOtherUnit(field.quantity, words);
  // In "litres at 15 C" the first word is the unit.
  const named = taken > 0 ? units : unitsNamed(field.quantity, words[0] ?? '');
  return onlyFound([stripped, isOther ? null : matchPhrase(phrase, words, named)]);
}

function onlyFound(matches: readonly (HeaderMatch | null)[]): HeaderMatch[] {
  return matches.filter((match) => match !== null);
}

/** The unit at the end of a header's words, and how many words it takes. */
export function unitAtEnd(
  quantity: Quantity,
  words: readonly string[]
): { units: readonly UnitCode[]; taken: number } {
  for (let taken = Math.min(4, words.length); taken >= 1; taken--) {
    const units = unitsNamed(quantity, words.slice(-taken).join(' '));
    if (units.length > 0) return { units, taken };
  }
  return { units: [], taken: 0 };
}

const quantities: readonly Quantity[] = [
  'volume',
  'mass',
  'density',
  'temperature',
  'conductivity',
  'duration',
  'particulate',
  'pressure'
];

/** True where a text is a unit, but none of this quantity. */
export function namesOtherUnit(quantity: Quantity, text: string): boolean {
  return quantities.some((other) => other !== quantity && unitsNamed(other, text).length > 0);
}

function endsInOtherUnit(quantity: Quantity, words: readonly string[]): boolean {
  // In "density at 15 C" the degree belongs to the figure before it.
  if (/^\d+$/.test(words[words.length - 2] ?? '')) return false;
  for (let taken = Math.min(4, words.length - 1); taken >= 1; taken--) {
    if (namesOtherUnit(quantity, words.slice(-taken).join(' '))) return true;
  }
  return false;
}

const utcWords = new Set('utc gmt ut zulu z tu tuc utz'.split(' '));
const localWords = new Set('local lt lcl locale locales lokal lokale ortszeit'.split(' '));

/** The clock that a header states for its times. */
export function headerZone(header: string): 'utc' | 'local' | null {
  const words = headerWordsOf(header);
  if (words.some((word) => utcWords.has(word))) return 'utc';
  return words.some((word) => localWords.has(word)) ? 'local' : null;
}
