import { isoOf, minutesPerDay } from './calendar.ts';
import { plant } from './plant.ts';
import { chance, pick, type Random, whole } from './random.ts';
import type { DemoRow } from './row.ts';
import type { SlipKind } from './value-slips.ts';

/** Writes a cell as it stands, instead of the value. */
function writeCell(row: DemoRow, field: string, text: string, kind: string, trueValue: string): boolean {
  row.cells = { ...row.cells, [field]: text };
  plant(row, { kind, field }, trueValue, text);
  return true;
}

const blank = (field: string, value: (row: DemoRow) => number | string): SlipKind['apply'] =>
  function applyBlank(row, _random, kind) {
    const there = value(row);
    if (there === '' || Number.isNaN(there)) return false;
    return writeCell(row, field, '', kind, String(there));
  };

const badNumbers = ['n/a', '---', '12.345.6', '1O50', '?', '8 240 x', '#VALUE', '1e5', '7,45,00'] as const;

function badNumber(row: DemoRow, random: Random, kind: string): boolean {
  if (!(row.volumeL > 0)) return false;
  const [field, value] = pick(random, [
    ['volume', row.volumeL],
    ['departureFuel', row.departureFuelKg],
    ['arrivalFuel', row.arrivalFuelKg],
    ['densityObserved', row.densityObservedKgM3]
  ] as const);
  return writeCell(row, field, pick(random, badNumbers), kind, String(value));
}

/** A registration as people type it: no hyphen, small letters, a zero for an O, a blank within. */
function misspelt(row: DemoRow, random: Random, kind: string): boolean {
  const { tail } = row;
  const spellings = [tail.replace('-', ''), tail.toLowerCase(), tail.replace('-', ' '), `${tail}.`];
  if (tail.includes('O')) spellings.push(tail.replace('O', '0'));
  return writeCell(row, 'tail', pick(random, spellings), kind, tail);
}

function wrongYear(row: DemoRow, _random: Random, kind: string): boolean {
  const trueValue = isoOf(row.endMinute);
  row.startMinute += 365 * minutesPerDay;
  row.endMinute += 365 * minutesPerDay;
  plant(row, { kind, field: 'time' }, trueValue, isoOf(row.endMinute));
  return true;
}

const badTimes = ['', '31.02.2026', '00/00/0000', 'yesterday', '2025-13-45T99:10Z'] as const;

const badTime: SlipKind['apply'] = (row, random, kind) =>
  writeCell(row, 'time', pick(random, badTimes), kind, '');

function extraCells(row: DemoRow, random: Random, kind: string): boolean {
  row.extraCells = chance(random, 0.5) ? 1 + whole(random, 2) : -3 - whole(random, 6);
  plant(row, { kind, field: '' }, 0, row.extraCells);
  return true;
}

function twice(row: DemoRow, _random: Random, kind: string): boolean {
  row.isTwice = true;
  plant(row, { kind, field: 'ticket', factor: 2 }, 1, 2);
  return true;
}

/** Cells and lines that arrive damaged. Frequencies are for the look of the demo; no source. */
export const cellSlips: readonly SlipKind[] = [
  { kind: 'volume-blank', per60000: 75, apply: blank('volume', (row) => row.volumeL) },
  { kind: 'density-blank', per60000: 95, apply: blank('densityObserved', (row) => row.densityObservedKgM3) },
  {
    kind: 'sample-temperature-blank',
    per60000: 70,
    apply: blank('densityTemperature', (row) => row.densityTemperatureC)
  },
  { kind: 'arrival-blank', per60000: 40, apply: blank('arrivalFuel', (row) => row.arrivalFuelKg) },
  { kind: 'departure-blank', per60000: 25, apply: blank('departureFuel', (row) => row.departureFuelKg) },
  { kind: 'station-blank', per60000: 20, apply: blank('station', (row) => row.stationCode) },
  { kind: 'tail-blank', per60000: 60, apply: blank('tail', (row) => row.tail) },
  { kind: 'tail-misspelt', per60000: 45, apply: misspelt },
  { kind: 'bad-number', per60000: 65, apply: badNumber },
  { kind: 'bad-time', per60000: 25, apply: badTime },
  { kind: 'wrong-year', per60000: 8, apply: wrongYear },
  { kind: 'cells-too-many-or-few', per60000: 22, apply: extraCells },
  { kind: 'ticket-twice', per60000: 80, apply: twice }
];
