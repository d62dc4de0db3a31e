import { unitsNamed, type Quantity } from '#lib/core/units/index.ts';
import { exportFormatColumn } from '#lib/data/record/index.ts';
import { isNumberLike } from './content.ts';
import { matchHeader } from './match.ts';
import { newTimeParts, scanTime, isTimePattern } from '../times/index.ts';

/** A record of the head of a file, kept as texts. */
export interface HeadRecord {
  readonly line: number;
  readonly cells: readonly string[];
}

/** Where the header of a file stands. */
export interface FoundHeader {
  /** Index of the header among the records, -1 where the file has none. */
  readonly index: number;
  readonly line: number | null;
  readonly headers: readonly string[];
  /** Whether the record below it names the units of the columns. */
  readonly units: HeadRecord | null;
}

/** Records searched for a header. */
const headerDepth = 100;
const noHeader: FoundHeader = { index: -1, line: null, headers: [], units: null };

/**
 * Finds the header: the first of the records with the most cells that are known header words, at least two; else a
 * first record of different texts above records with numbers or dates; else none. What stands above is preamble.
 */
export function findHeader(records: readonly HeadRecord[]): FoundHeader {
  let best = -1;
  let most = 1;
  for (let i = 0; i < Math.min(records.length, headerDepth); i++) {
    const known = knownCells(records[i]?.cells ?? []);
    if (known > most) {
      best = i;
      most = known;
    }
  }
  if (best < 0) best = unknownHeader(records);
  const record = records[best];
  if (record === undefined) return noHeader;
  const below = records[best + 1];
  const units = below !== undefined && isUnitsRow(below.cells) ? below : null;
  return { index: best, line: record.line, headers: record.cells.map((cell) => cell.trim()), units };
}

function knownCells(cells: readonly string[]): number {
  let known = 0;
  for (const cell of cells) {
    if (cell.trim() === exportFormatColumn) known += 2;
    else if (cell.length <= 200 && !isNumberLike(cell) && matchHeader(cell).length > 0) known++;
  }
  return known;
}

const parts = newTimeParts();

/** True for a number or a time. */
export function isValueLike(text: string): boolean {
  if (isNumberLike(text)) return true;
  scanTime(text, parts);
  return parts.form !== 'bad';
}

/** The first record with more than one cell, where it is a header in words unknown here. */
function unknownHeader(records: readonly HeadRecord[]): number {
  const first = records.findIndex((record) => record.cells.filter((cell) => cell.trim() !== '').length > 1);
  const header = records[first];
  const below = records[first + 1];
  if (header === undefined || below === undefined) return -1;
  const texts = header.cells.map((cell) => cell.trim()).filter((cell) => cell !== '');
  const isTexts = new Set(texts).size === texts.length && !texts.some(isValueLike);
  return isTexts && below.cells.some(isValueLike) ? first : -1;
}

const quantities: readonly Quantity[] = [
  'volume',
  'mass',
  'density',
  'temperature',
  'conductivity',
  'duration',
  'particulate',
  'water'
];

/** A unit in a row of units, its brackets left out. */
export function unitText(cell: string): string {
  return cell
    .trim()
    .replace(/^[([]|[)\]]$/g, '')
    .trim();
}

function isUnitsRow(cells: readonly string[]): boolean {
  let units = 0;
  for (const cell of cells) {
    const text = unitText(cell);
    if (text === '' || text === '-' || /^(utc|text|local)$/i.test(text) || isTimePattern(text)) continue;
    if (text.length > 24 || /^\d+$/.test(text)) return false;
    if (!quantities.some((quantity) => unitsNamed(quantity, text).length > 0)) return false;
    units++;
  }
  return units > 0;
}
