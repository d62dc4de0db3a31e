import { unitCodes, unitOf, type UnitCode } from '#lib/core/units/index.ts';
import type { NumberMarks, RecordView } from '../tokeniser.ts';
import { scanNumber } from '../tokenise/scan-number.ts';
import { numberFit, splitUnit } from '../numbers/shape.ts';
import { keepSample, type CellSample } from './samples.ts';

/** What the values of a column are like under one decimal mark. */
export interface ValueEvidence {
  /** Values read, the least and the greatest of them. */
  count: number;
  least: number;
  greatest: number;
  /** Values of a size that jet fuel has in a density unit, by unit. */
  readonly densityFits: Map<UnitCode, number>;
  /** How often each group mark was needed. */
  readonly groups: Map<string, number>;
}

/** What the cells of a column say about the way its numbers are written. */
export interface NumberEvidence {
  plain: number;
  dot: number;
  comma: number;
  either: number;
  bad: number;
  /** Cells with a unit behind the number, by unit text. */
  readonly units: Map<string, number>;
  readonly asDot: ValueEvidence;
  readonly asComma: ValueEvidence;
  readonly samples: {
    readonly dot: CellSample[];
    readonly comma: CellSample[];
    readonly either: CellSample[];
    readonly plain: CellSample[];
    readonly bad: CellSample[];
  };
}

const densityUnits: readonly UnitCode[] = unitCodes('density');
/** Different unit texts kept per column: more are no units. */
const mostUnits = 20;

function newValueEvidence(): ValueEvidence {
  return { count: 0, least: Infinity, greatest: -Infinity, densityFits: new Map(), groups: new Map() };
}

export function newNumberEvidence(): NumberEvidence {
  return {
    plain: 0,
    dot: 0,
    comma: 0,
    either: 0,
    bad: 0,
    units: new Map(),
    asDot: newValueEvidence(),
    asComma: newValueEvidence(),
    samples: { dot: [], comma: [], either: [], plain: [], bad: [] }
  };
}

const plainDot: NumberMarks = { decimal: '.', group: null };
const plainComma: NumberMarks = { decimal: ',', group: null };

/**
 * Adds one cell. Where the column has shown one decimal mark and not the other, a cell that fits it without group
 * marks is counted from its number alone, which spares most columns a text per cell.
 */
export function addNumber(evidence: NumberEvidence, record: RecordView, cell: number): void {
  if (evidence.dot > 0 && evidence.comma === 0) {
    const value = record.number(cell, plainDot);
    if (!Number.isNaN(value)) {
      evidence.dot++;
      addValue(evidence.asDot, value, null);
      return;
    }
  } else if (evidence.comma > 0 && evidence.dot === 0) {
    const value = record.number(cell, plainComma);
    if (!Number.isNaN(value)) {
      evidence.comma++;
      addValue(evidence.asComma, value, null);
      return;
    }
  }
  addNumberText(evidence, record.text(cell), record.line);
}

/** Adds one cell by its text. */
export function addNumberText(evidence: NumberEvidence, text: string, line: number): void {
  let number = text;
  let fit = numberFit(text);
  if (fit.shape === 'bad') {
    const split = splitUnit(text);
    if (split !== null) {
      number = split.number;
      fit = numberFit(number);
      if (fit.shape !== 'bad') addUnit(evidence, split.unit);
    }
  }
  evidence[fit.shape]++;
  keepSample(evidence.samples[fit.shape], line, text);
  if (fit.dot !== null) addValue(evidence.asDot, scanNumber(number, fit.dot), fit.dot.group);
  if (fit.comma !== null) addValue(evidence.asComma, scanNumber(number, fit.comma), fit.comma.group);
}

function addUnit(evidence: NumberEvidence, unit: string): void {
  const seen = evidence.units.get(unit);
  if (seen !== undefined || evidence.units.size < mostUnits) evidence.units.set(unit, (seen ?? 0) + 1);
}

function addValue(values: ValueEvidence, value: number, group: string | null): void {
  values.count++;
  if (value < values.least) values.least = value;
  if (value > values.greatest) values.greatest = value;
  if (group !== null) values.groups.set(group, (values.groups.get(group) ?? 0) + 1);
  if (value >= 0.5 && value <= 1000) addDensity(values, value);
}

function addDensity(values: ValueEvidence, value: number): void {
  for (const code of densityUnits) {
    const range = unitOf(code).jetFuel;
    if (range !== undefined && value >= range[0] && value <= range[1]) {
      values.densityFits.set(code, (values.densityFits.get(code) ?? 0) + 1);
    }
  }
}

/** The group mark a column needs with a decimal mark: the one met most often, null where none was met. */
export function groupMarkOf(values: ValueEvidence): string | null {
  let best: string | null = null;
  let most = 0;
  for (const [group, count] of values.groups) {
    if (count > most) {
      best = group;
      most = count;
    }
  }
  return best;
}
