import { unitsNamed, type Quantity } from '#lib/core/units/index.ts';
import { isMissingMarker, numberFit, splitUnit } from '../numbers/shape.ts';
import { newTimeParts, scanTime } from '../times/index.ts';

/** What the cells of a column look like, counted over the first records of a file. */
export interface ContentCounts {
  filled: number;
  numbers: number;
  /** Dates without a clock, clocks without a date, and both together. */
  dates: number;
  clocks: number;
  instants: number;
  /** Cells that name a unit, of any quantity and by quantity. */
  unitCells: number;
  readonly units: Map<Quantity, number>;
}

const quantities: readonly Quantity[] = [
  'volume',
  'mass',
  'density',
  'temperature',
  'conductivity',
  'particulate'
];
const parts = newTimeParts();

export function newContentCounts(): ContentCounts {
  return { filled: 0, numbers: 0, dates: 0, clocks: 0, instants: 0, unitCells: 0, units: new Map() };
}

export function countContent(counts: ContentCounts, text: string): void {
  if (text.trim() === '' || isMissingMarker(text)) return;
  counts.filled++;
  if (isNumberLike(text)) counts.numbers++;
  scanTime(text, parts);
  if (parts.form === 'clock') counts.clocks++;
  else if (parts.form !== 'bad') counts[parts.hasClock ? 'instants' : 'dates']++;
  const named = quantitiesNamed(text);
  for (const quantity of named) counts.units.set(quantity, (counts.units.get(quantity) ?? 0) + 1);
  if (named.length > 0) counts.unitCells++;
}

const longestUnit = 24;
const known = new Map<string, readonly Quantity[]>();

/** Quantities of which a text names a unit. Columns of units repeat a few texts, so those are remembered. */
function quantitiesNamed(text: string): readonly Quantity[] {
  if (text.length > longestUnit || !/\p{L}/u.test(text)) return [];
  let named = known.get(text);
  if (named === undefined) {
    named = quantities.filter((quantity) => unitsNamed(quantity, text).length > 0);
    if (known.size > 2000) known.clear();
    known.set(text, named);
  }
  return named;
}

/** A number, with or without a unit behind it. */
export function isNumberLike(text: string): boolean {
  if (numberFit(text).shape !== 'bad') return true;
  const split = splitUnit(text);
  return split !== null && split.unit.length <= 24 && numberFit(split.number).shape !== 'bad';
}

/** True where at least half of the filled cells are numbers; a column without filled cells is open to anything. */
export function isNumberColumn(counts: ContentCounts): boolean {
  return counts.numbers * 2 >= counts.filled;
}

export function isTimeColumn(counts: ContentCounts): boolean {
  return (counts.dates + counts.clocks + counts.instants) * 2 >= counts.filled;
}

/**
 * The quantity that a column of units names most, null where fewer than nine in ten filled cells are units, or under a
 * header that says so half of them: a unit that is not known among others must not make them all be overlooked.
 */
export function unitColumnQuantity(counts: ContentCounts, isHeaded: boolean): Quantity | null {
  const fewest = (isHeaded ? 0.5 : 0.9) * counts.filled;
  if (counts.unitCells === 0 || counts.unitCells < fewest || counts.numbers > 0) return null;
  let best: Quantity | null = null;
  let most = 0;
  for (const [quantity, count] of counts.units) {
    if (count > most) {
      best = quantity;
      most = count;
    }
  }
  return best;
}
