import type { Quantity } from './unit.ts';
import { type UnitCode, unitCodes, unitOf } from './units.ts';

/** Names that mean more than one unit: the file must be asked about, never guessed. */
const ambiguous: readonly (readonly [Quantity, readonly UnitCode[], readonly string[]])[] = [
  ['volume', ['usGallon', 'imperialGallon'], ['gal', 'gals', 'gallon', 'gallons', 'G']],
  [
    'density',
    ['poundPerUsGallon', 'poundPerImperialGallon'],
    ['lb/gal', 'lbs/gal', 'lb/gallon', 'lbs/gallon', 'lbs/gallons', 'ppg', 'pounds per gallon']
  ],
  [
    'density',
    ['kilogramPerLitre', 'relativeDensity60F'],
    ['SG', 'S.G.', 'sp gr', 'RD', 'relative density', 'specific gravity']
  ]
];

/** Letters, digits and the percent sign of a unit's spelling: all that tells two units apart. */
function bare(text: string): string {
  return text
    .replace(/[°º˚]/g, '')
    .normalize('NFKC')
    .toLowerCase()
    .replace(/[µμ]/g, 'u')
    .replace(/_/g, ' ')
    .replace(/\bper\b/g, '/')
    .replace(/[^\p{L}\p{N}%]/gu, '');
}

function namesOf(quantity: Quantity): Map<string, readonly UnitCode[]> {
  const names = new Map<string, readonly UnitCode[]>();
  for (const code of unitCodes(quantity)) {
    const { words, symbol } = unitOf(code);
    for (const word of [symbol, ...words, code]) names.set(bare(word), [code]);
  }
  for (const [of, codes, words] of ambiguous) {
    if (of === quantity) for (const word of words) names.set(bare(word), codes);
  }
  return names;
}

const namesByQuantity = new Map<Quantity, Map<string, readonly UnitCode[]>>();

/**
 * All units of a quantity that a text may name: several for "gal", "lb/gal" or "SG", none for an unknown text.
 * Case, spaces and punctuation do not matter.
 */
export function unitsNamed(quantity: Quantity, text: string): readonly UnitCode[] {
  let names = namesByQuantity.get(quantity);
  if (names === undefined) {
    names = namesOf(quantity);
    namesByQuantity.set(quantity, names);
  }
  return names.get(bare(text)) ?? [];
}

/**
 * The one unit a text names, or undefined when it names none or more than one.
 *
 * Example: `unitNamed('volume', 'U.S. gallons')` is 'usGallon'; `unitNamed('volume', 'gal')` is undefined.
 */
export function unitNamed(quantity: Quantity, text: string): UnitCode | undefined {
  const named = unitsNamed(quantity, text);
  return named.length === 1 ? named[0] : undefined;
}
