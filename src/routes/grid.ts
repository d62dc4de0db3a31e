import { toneOf, type Cell, type Column } from '#lib/charts/twin.ts';
import type { GridKey } from '#lib/data/questions/index.ts';
import type { RecordValue } from '#lib/data/ledger/index.ts';
import { computedNamed, fieldNamed, splitKey } from '#lib/data/record/index.ts';
import { columnLabel, columnUnit, valueWords } from '#lib/data/words/index.ts';
import { formatNumber } from '#lib/ui/format.ts';
import { instantWords, verdictMark } from './words.ts';

/** Columns shown before a person chooses, identity first. */
export const defaultColumns: readonly GridKey[] = [
  'ticket',
  'time',
  'station',
  'tail',
  'verdict',
  'discrepancy',
  'discrepancyPercent',
  'en',
  'limit',
  'meteredMass',
  'gaugeUplift',
  'volume',
  'densityObserved',
  'density15',
  'fuelTemperature',
  'arrivalFuel',
  'departureFuel',
  'groundBurn',
  'supplier',
  'vehicle',
  'type',
  'waterTest',
  'visual',
  'quality',
  'marks',
  'likelyCause',
  'sourceFile',
  'sourceLine'
];

/** Identity columns that stay in view. */
const held = new Set<GridKey>(['ticket', 'time']);

/** Room of a letter of a header, and of what stands beside it: padding and the mark of the order. */
const letterPx = 7.8;
const headerRoomPx = 36;

function widthOf(key: GridKey): number {
  const computed = computedNamed(key);
  if (key === 'marks' || key === 'quality' || key === 'likelyCause' || key === 'remarks') return 280;
  if (key === 'sourceFile' || key === 'supplier' || key === 'verdict' || key === 'densityCase') return 170;
  if (key === 'time' || key === 'startTime') return 150;
  if (computed !== undefined) return 120;
  return fieldNamed(splitKey(key).name).kind === 'number' ? 110 : 120;
}

/** True for columns of numbers, right-aligned. */
function isNumber(key: GridKey): boolean {
  const computed = computedNamed(key);
  return computed === undefined
    ? fieldNamed(splitKey(key).name).kind === 'number'
    : computed.kind === 'number';
}

/** A column of the grid with its width in px and whether it stays in view. */
export interface GridColumn extends Column {
  widthPx: number;
  held: boolean;
  sortable: boolean;
}

export function gridColumn(key: GridKey): GridColumn {
  const unit = columnUnit(key);
  return {
    key,
    label: columnLabel(key),
    ...(unit === '' ? {} : { unit }),
    kind: isNumber(key) ? 'number' : key === 'ticket' ? 'code' : 'text',
    // A header that runs into its neighbour could not be pressed.
    widthPx: Math.max(widthOf(key), Math.ceil(columnLabel(key).length * letterPx + headerRoomPx)),
    held: held.has(key),
    sortable: true
  };
}

const signed = new Set<GridKey>(['discrepancy', 'discrepancyPercent', 'discrepancyPercentOfBase', 'en']);

/** Places a source number is shown with: as many as it has, six at the most. */
function shownDecimals(value: number): number {
  for (let decimals = 0; decimals < 6; decimals++) {
    if (Math.abs(value - Number(value.toFixed(decimals))) < 1e-9) return decimals;
  }
  return 6;
}

function numberCell(key: GridKey, value: number): Cell {
  const decimals = computedNamed(key)?.shownDecimals ?? (Number.isFinite(value) ? shownDecimals(value) : 0);
  const text = formatNumber(value, { decimals, signed: signed.has(key), missing: '' });
  return signed.has(key) ? { text, sort: value, tone: toneOf(value) } : { text, sort: value };
}

/** A value of the grid as a cell. `en` decides how an outside verdict is inked. */
export function gridCell(key: GridKey, value: RecordValue, en: number): Cell {
  if (key === 'time' || key === 'startTime') {
    return {
      text: typeof value === 'number' && Number.isFinite(value) ? instantWords(value).replace(' UTC', '') : ''
    };
  }
  if (typeof value === 'number') return numberCell(key, value);
  const text = valueWords(key, value);
  return key === 'verdict' && value !== '' ? { text, mark: verdictMark(value, en) } : { text };
}
