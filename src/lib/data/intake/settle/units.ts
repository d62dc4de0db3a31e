import {
  canonicalUnits,
  isUnitCode,
  unitOf,
  unitsNamed,
  type Quantity,
  type UnitCode
} from '#lib/core/units/index.ts';
import { splitKey } from '#lib/data/record/index.ts';
import type { ColumnRole } from '../header/recognise.ts';
import {
  densityUnits,
  valuesWith,
  type NumberEvidence,
  type ValueEvidence
} from '../evidence/number-evidence.ts';
import { foldWord, type WordEvidence } from '../evidence/word-evidence.ts';
import type { UnitSource } from '../layout.ts';
import type { Reading } from '../question.ts';
import type { Asking } from './asking.ts';
import { numberWith, type DecimalMark } from './marks.ts';

/** The unit of a column of numbers and where it comes from. */
export interface SettledUnit {
  readonly unit: UnitCode | null;
  readonly from: UnitSource;
  readonly unitWords: readonly (readonly [string, UnitCode])[];
}

/** What the unit of a column is asked among where nothing says it. */
const usual: Readonly<Record<Quantity, readonly UnitCode[]>> = {
  volume: ['litre', 'usGallon', 'imperialGallon', 'cubicMetre'],
  mass: ['kilogram', 'pound', 'tonne'],
  density: [],
  temperature: ['celsius', 'fahrenheit'],
  conductivity: ['picosiemensPerMetre', 'nanosiemensPerMetre'],
  duration: ['minute', 'hour'],
  particulate: ['milligramPerLitre', 'milligramPerUsGallon'],
  water: ['partPerMillion'],
  pressure: ['kilopascal', 'bar', 'poundPerSquareInch']
};

export interface UnitCase {
  readonly role: ColumnRole;
  readonly header: string;
  readonly quantity: Quantity;
  readonly decimal: DecimalMark;
  readonly evidence: NumberEvidence;
  /** Words of the column that names units, if there is one. */
  readonly unitWords: WordEvidence | null;
}

/** Settles the unit of a column by the evidence, or as a person would rather have it, or asks; null while open. */
export function settleUnit(unitCase: UnitCase, asking: Asking): SettledUnit | null {
  const { role, quantity } = unitCase;
  const unitWords = settleUnitWords(unitCase, asking);
  if (unitWords === null) return null;
  const shown = unitByEvidence(unitCase);
  const byHand = usableUnit(quantity, asking.given(`unit:${role.column}`) ?? '');
  if (byHand !== undefined && (shown !== null || isTank(role))) {
    return { unit: byHand, from: 'answer', unitWords };
  }
  if (shown !== null) return { ...shown, unitWords };
  const named = headerUnits(unitCase);
  const offered = named.length > 0 ? named : candidates(unitCase);
  // What was chosen by hand may be rarer than what is offered.
  const units = byHand === undefined || offered.includes(byHand) ? offered : [...offered, byHand];
  const unit = usableUnit(quantity, askUnit(unitCase, units, asking) ?? '');
  return unit === undefined ? null : { unit, from: 'answer', unitWords };
}

function isTank({ key }: ColumnRole): boolean {
  return splitKey(key).member !== null;
}

/** A column of units, the header, each cell, or the size of the values; null where none of them says it. */
function unitByEvidence(unitCase: UnitCase): Omit<SettledUnit, 'unitWords'> | null {
  const { role, evidence } = unitCase;
  if (role.unitColumn !== null) return { unit: null, from: 'column' };
  const named = headerUnits(unitCase);
  if (named.length === 1) return { unit: named[0] ?? null, from: 'header' };
  if (named.length > 1) return null;
  const withUnit = sum(evidence.units.values());
  const filled = evidence.dot + evidence.comma + evidence.either + evidence.plain;
  if (withUnit > 0 && withUnit === filled) return { unit: null, from: 'cell' };
  const bySize = unitBySize(unitCase);
  return bySize === null ? null : { unit: bySize, from: 'size' };
}

function sum(counts: Iterable<number>): number {
  let total = 0;
  for (const count of counts) total += count;
  return total;
}

function usableUnit(quantity: Quantity, code: string): UnitCode | undefined {
  return isUnitCode(code) && unitOf(code).quantity === quantity ? code : undefined;
}

function valuesOf({ evidence, decimal }: UnitCase): ValueEvidence {
  return valuesWith(evidence, decimal);
}

/** Values of a jet fuel's size in a density unit. */
function fitsOf({ densityFits }: ValueEvidence, unit: UnitCode): number {
  return densityFits[densityUnits.indexOf(unit)] ?? 0;
}

/**
 * Units the header names, unless the sizes contradict them: where most values cannot be a jet fuel's density in the
 * unit named and can be in another, both are offered.
 */
function headerUnits(unitCase: UnitCase): readonly UnitCode[] {
  const { role, quantity } = unitCase;
  const [only] = role.units;
  if (quantity !== 'density' || role.units.length !== 1 || only === undefined) return role.units;
  const values = valuesOf(unitCase);
  const fits = fitsOf(values, only);
  if (fits * 2 >= values.count) return role.units;
  const better = bestDensityUnits(unitCase).filter((unit) => fitsOf(values, unit) > fits);
  return better.length === 0 ? role.units : [only, ...better];
}

/** Density units that most values fit, all of them where several fit as many. */
function bestDensityUnits(unitCase: UnitCase): UnitCode[] {
  const values = valuesOf(unitCase);
  const most = Math.max(...values.densityFits);
  return most === 0 ? [] : densityUnits.filter((unit) => fitsOf(values, unit) === most);
}

/** The unit that the sizes alone leave: one density unit that fits at least four in five, or degrees F. */
function unitBySize(unitCase: UnitCase): UnitCode | null {
  const { quantity } = unitCase;
  const values = valuesOf(unitCase);
  if (quantity === 'density') {
    const [first, ...others] = bestDensityUnits(unitCase);
    const fits = first === undefined ? 0 : fitsOf(values, first);
    return first !== undefined && others.length === 0 && fits * 5 >= values.count * 4 ? first : null;
  }
  // No fuel in an aircraft or a refueller is above 60 degrees C, and no antistatic fuel is kept at 20 nS/m.
  if (quantity === 'temperature') return values.greatest > 60 && values.greatest <= 140 ? 'fahrenheit' : null;
  if (quantity === 'conductivity') return values.greatest >= 20 ? 'picosiemensPerMetre' : null;
  return values.count === 0 ? canonicalUnits[quantity] : null;
}

function candidates(unitCase: UnitCase): readonly UnitCode[] {
  if (unitCase.quantity !== 'density') return usual[unitCase.quantity];
  const best = bestDensityUnits(unitCase);
  return best.length > 0
    ? best
    : ['kilogramPerCubicMetre', 'kilogramPerLitre', 'poundPerUsGallon', 'degreeApi'];
}

function askUnit(unitCase: UnitCase, units: readonly UnitCode[], asking: Asking): string | null {
  const { evidence, decimal, role, header } = unitCase;
  const shown = [
    ...evidence.samples.dot,
    ...evidence.samples.comma,
    ...evidence.samples.plain,
    ...evidence.samples.either
  ];
  const readings = units.map((code): Reading => ({
    id: code,
    words: unitOf(code).symbol,
    samples: shown.slice(0, 3).map(({ line, text }) => {
      return { line, text, reading: `${numberWith(text, decimal)} ${unitOf(code).symbol}` };
    })
  }));
  // The tanks of an aircraft are read off one panel: one answer holds for all of them.
  const id = isTank(role) ? 'unit:tanks' : `unit:${role.column}`;
  const count = valuesOf(unitCase).count;
  return asking.ask({ id, kind: 'unit', column: role.column, about: header, count, readings });
}

/** Asks about unit words that mean several units of the quantity ("gal"); null while one is open. */
function settleUnitWords(unitCase: UnitCase, asking: Asking): (readonly [string, UnitCode])[] | null {
  const { quantity, unitWords, evidence, role, header } = unitCase;
  const words = new Map<string, number>();
  for (const [word, { count }] of unitWords?.words ?? []) words.set(word, count);
  for (const [word, count] of evidence.units) words.set(foldWord(word), count);
  const settled: (readonly [string, UnitCode])[] = [];
  let isOpen = false;
  for (const [word, count] of words) {
    const meant = unitsNamed(quantity, word);
    if (meant.length < 2) continue;
    const answer = asking.ask({
      id: `unit:${role.column}:${word}`,
      kind: 'word',
      column: role.column,
      about: header,
      word,
      count,
      readings: meant.map((code) => ({ id: code, words: unitOf(code).symbol, samples: [] }))
    });
    const unit = meant.find((code) => code === answer);
    if (unit === undefined) isOpen = true;
    else settled.push([word, unit]);
  }
  return isOpen ? null : settled;
}
