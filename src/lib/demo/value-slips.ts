import { litresPerImperialGallon } from '#lib/core/units/index.ts';
import { plant, plantProportion } from './plant.ts';
import { chance, type Random, uniform, whole } from './random.ts';
import type { DemoRow } from './row.ts';
import { writeCopiedArrival, writePounds } from './story-slips.ts';

/** A slip: how often in 60,000 uplifts, and what it does. It returns false where it does not suit the row. */
export interface SlipKind {
  readonly kind: string;
  readonly per60000: number;
  readonly apply: (row: DemoRow, random: Random, kind: string) => boolean;
}

/** Fields in which figures get mistyped, with their truth name. */
const typed = [
  ['volumeL', 'volume'],
  ['arrivalFuelKg', 'arrivalFuel'],
  ['departureFuelKg', 'departureFuel']
] as const;
type TypedKey = (typeof typed)[number][0];

function setTyped(row: DemoRow, key: TypedKey, field: string, written: number, kind: string): boolean {
  const before = row[key];
  if (!(before > 0) || written === before || !(written >= 0)) return false;
  row[key] = written;
  plantProportion(row, { kind, field }, before, written);
  return true;
}

function anyTyped(random: Random): (typeof typed)[number] {
  return typed[whole(random, typed.length)] ?? typed[0];
}

/** Swaps two neighbouring, different digits. */
function transposed(value: number, random: Random): number {
  const digits = String(value).split('');
  const at = whole(random, Math.max(1, digits.length - 1));
  const [first = '', second = ''] = [digits[at], digits[at + 1]];
  if (at === 0 && second === '0') return value;
  digits[at] = second;
  digits[at + 1] = first;
  return Number(digits.join(''));
}

/** Replaces one of the leading digits by another. */
function oneDigitOff(value: number, random: Random): number {
  const digits = String(value).split('');
  const at = whole(random, Math.min(2, digits.length));
  const digit = 1 + whole(random, 9);
  digits[at] = String(digit);
  return Number(digits.join(''));
}

function swapBeforeAfter(row: DemoRow, _random: Random, kind: string): boolean {
  const { arrivalFuelKg, departureFuelKg } = row;
  if (!(arrivalFuelKg > 0) || !(departureFuelKg > arrivalFuelKg)) return false;
  row.arrivalFuelKg = departureFuelKg;
  row.departureFuelKg = arrivalFuelKg;
  plantProportion(row, { kind, field: 'departureFuel' }, departureFuelKg, arrivalFuelKg);
  return true;
}

function fahrenheit(row: DemoRow, _random: Random, kind: string): boolean {
  const celsius = row.densityTemperatureC;
  if (Number.isNaN(celsius)) return false;
  row.densityTemperatureC = Math.round(celsius * 1.8 + 32);
  plant(row, { kind, field: 'densityTemperature' }, celsius, row.densityTemperatureC);
  return true;
}

/** Density written in the layout's other unit: kg/L where kg/m3 is asked, and the reverse. */
function densityUnit(row: DemoRow, _random: Random, kind: string): boolean {
  const density = row.densityObservedKgM3;
  if (Number.isNaN(density)) return false;
  const isKgL = row.layout !== 'B';
  const text = isKgL ? (density / 1000).toFixed(4) : density.toFixed(1);
  row.cells = { ...row.cells, densityObserved: row.layout === 'B' ? text.replace('.', ',') : text };
  plant(row, { kind, field: 'densityObserved', factor: isKgL ? 0.001 : 1000 }, density, text);
  return true;
}

/** Another tail of the same type, by its last letter. */
function wrongTail(row: DemoRow, random: Random, kind: string): boolean {
  const letters = [4, 3, 5][row.typeIndex] ?? 3;
  const last = row.tail.charCodeAt(row.tail.length - 1) - 65;
  if (last < 0 || last > 25) return false;
  const other =
    row.tail.slice(0, -1) + String.fromCharCode(65 + ((last + 1 + whole(random, letters - 1)) % letters));
  if (other === row.tail) return false;
  plant(row, { kind, field: 'tail' }, row.tail, other);
  row.tail = other;
  return true;
}

/** The meter was not set to zero: the ticket's volume is the delivery before and this one. */
function notReset(row: DemoRow, random: Random, kind: string): boolean {
  const beforeL = Math.round(row.volumeL * (0.4 + uniform(random)));
  if (!(row.meterStartL >= beforeL)) return false;
  row.meterStartL -= beforeL;
  return setTyped(row, 'volumeL', 'volume', row.volumeL + beforeL, kind);
}

/** Fuel taken off written as a negative amount. */
function defuelSign(row: DemoRow, _random: Random, kind: string): boolean {
  if (!(row.defuelledKg > 0)) return false;
  plant(row, { kind, field: 'defuelled', factor: -1 }, row.defuelledKg, -row.defuelledKg);
  row.defuelledKg = -row.defuelledKg;
  return true;
}

function inPounds(row: DemoRow): boolean {
  if (!(row.volumeL > 0)) return false;
  writePounds(row, 0);
  return true;
}

function copiedArrival(row: DemoRow): boolean {
  if (!(row.previousDepartureKg > 0) || !(row.volumeL > 0)) return false;
  writeCopiedArrival(row, 0);
  return true;
}

/** Slips of values that a person makes. Frequencies are for the look of the demo; no source. */
export const valueSlips: readonly SlipKind[] = [
  {
    kind: 'digits-transposed',
    per60000: 110,
    apply: (row, random, kind) => {
      const [key, field] = anyTyped(random);
      return setTyped(row, key, field, transposed(row[key], random), kind);
    }
  },
  {
    kind: 'single-digit',
    per60000: 70,
    apply: (row, random, kind) => {
      const [key, field] = anyTyped(random);
      return setTyped(row, key, field, oneDigitOff(row[key], random), kind);
    }
  },
  {
    kind: 'decimal-shift',
    per60000: 40,
    apply: (row, random, kind) => {
      const factor = chance(random, 0.5) ? 10 : 0.1;
      return setTyped(row, 'volumeL', 'volume', Math.round(row.volumeL * factor), kind);
    }
  },
  {
    kind: 'imperial-gallons-as-litres',
    per60000: 14,
    apply: (row, _random, kind) =>
      setTyped(row, 'volumeL', 'volume', Math.round(row.volumeL / litresPerImperialGallon), kind)
  },
  { kind: 'pounds-as-kilograms', per60000: 20, apply: inPounds },
  { kind: 'arrival-copied', per60000: 25, apply: copiedArrival },
  { kind: 'before-after-swapped', per60000: 20, apply: swapBeforeAfter },
  {
    kind: 'planned-as-gauge',
    per60000: 40,
    apply: (row, _random, kind) => setTyped(row, 'departureFuelKg', 'departureFuel', row.orderedKg, kind)
  },
  { kind: 'fahrenheit-as-celsius', per60000: 25, apply: fahrenheit },
  { kind: 'density-unit', per60000: 40, apply: densityUnit },
  { kind: 'wrong-tail', per60000: 30, apply: wrongTail },
  { kind: 'meter-not-reset', per60000: 15, apply: notReset },
  { kind: 'defuel-sign', per60000: 6, apply: defuelSign }
];
