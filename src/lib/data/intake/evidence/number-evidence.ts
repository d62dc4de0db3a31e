import { unitCodes, unitOf, type UnitCode } from '#lib/core/units/index.ts';
import { numberFit, splitUnit } from '../numbers/shape.ts';
import { scanNumber } from '../tokenise/scan-number.ts';
import { cellLook, type NumberMarks, type RecordView } from '../tokeniser.ts';
import { keepSample, type CellSample } from './samples.ts';

/** What values read with one decimal mark are like. */
export interface ValueEvidence {
  count: number;
  least: number;
  greatest: number;
  /** Values of a size that jet fuel has, by density unit, in the order of `densityUnits`. */
  readonly densityFits: number[];
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
  /** Values that are the same with either decimal mark, and those that need a point or a comma. */
  readonly values: Readonly<Record<'plain' | 'dot' | 'comma', ValueEvidence>>;
  readonly samples: Readonly<Record<'plain' | 'dot' | 'comma' | 'either' | 'bad', CellSample[]>>;
}

/** Density units that a column without a unit may be in. */
export const densityUnits: readonly UnitCode[] = unitCodes('density').filter(
  (code) => unitOf(code).jetFuel !== undefined
);
const densityRanges = densityUnits.map((code) => unitOf(code).jetFuel ?? ([NaN, NaN] as const));
/** No density is less or more than this in any of the units. */
const leastDensity = Math.min(...densityRanges.map(([least]) => least));
const greatestDensity = Math.max(...densityRanges.map(([, greatest]) => greatest));

/** Different unit texts kept per column: more are no units. */
const mostUnits = 20;

function newValueEvidence(): ValueEvidence {
  const densityFits = densityUnits.map(() => 0);
  return { count: 0, least: Infinity, greatest: -Infinity, densityFits, groups: new Map() };
}

export function newNumberEvidence(): NumberEvidence {
  return {
    plain: 0,
    dot: 0,
    comma: 0,
    either: 0,
    bad: 0,
    units: new Map(),
    values: { plain: newValueEvidence(), dot: newValueEvidence(), comma: newValueEvidence() },
    samples: { plain: [], dot: [], comma: [], either: [], bad: [] }
  };
}

const plainDot: NumberMarks = { decimal: '.', group: null };
const plainComma: NumberMarks = { decimal: ',', group: null };

/**
 * Adds one cell that is not blank. A cell that both decimal marks read alike without group marks is plain, and once a
 * column has shown one decimal mark and not the other a cell that fits it is counted from its number alone: most
 * cells cost no text.
 */
export function addNumber(evidence: NumberEvidence, record: RecordView, cell: number): void {
  const dot = record.number(cell, plainDot);
  const isDotOnly = evidence.dot > 0 && evidence.comma === 0;
  const comma = isDotOnly && dot === dot ? NaN : record.number(cell, plainComma);
  if (dot === dot && dot === comma && evidence.samples.plain.length === 3) {
    evidence.plain++;
    addValue(evidence.values.plain, dot);
  } else if (isDotOnly && dot === dot) {
    evidence.dot++;
    addValue(evidence.values.dot, dot);
  } else if (evidence.comma > 0 && evidence.dot === 0 && comma === comma) {
    evidence.comma++;
    addValue(evidence.values.comma, comma);
  } else {
    addNumberText(evidence, record.text(cell), record.line);
  }
}

/** The decimal mark that cells of a column are first read with. */
export function decimalOf(evidence: NumberEvidence): '.' | ',' {
  return evidence.comma > 0 && evidence.dot === 0 ? ',' : '.';
}

/** Adds values to what is known of them, kept apart from it while a run of cells is gone through. */
class ValueRun {
  #count = 0;
  #least = Infinity;
  #greatest = -Infinity;
  readonly #into: ValueEvidence;

  constructor(into: ValueEvidence) {
    this.#into = into;
  }

  add(value: number): void {
    this.#count++;
    if (value < this.#least) this.#least = value;
    if (value > this.#greatest) this.#greatest = value;
    if (value >= leastDensity && value <= greatestDensity) addDensity(this.#into.densityFits, value);
  }

  /** Hands over; tells how many values there were. */
  end(): number {
    const into = this.#into;
    into.count += this.#count;
    into.least = Math.min(into.least, this.#least);
    into.greatest = Math.max(into.greatest, this.#greatest);
    return this.#count;
  }
}

/**
 * Adds the cells [from, to) that were read with `decimal`, as `addNumber` would, up to the first whose number alone
 * does not tell all; gives its place. Blank cells are passed over.
 */
export function addPlainNumbers(
  evidence: NumberEvidence,
  values: Float64Array,
  looks: Uint8Array,
  from: number,
  to: number,
  decimal: '.' | ','
): number {
  const isDotOnly = evidence.dot > 0 && evidence.comma === 0;
  const isCommaOnly = evidence.comma > 0 && evidence.dot === 0;
  const hasSamples = evidence.samples.plain.length === 3;
  const takesMarked = decimal === '.' ? isDotOnly : isCommaOnly;
  const digits = new ValueRun(evidence.values[isDotOnly ? 'dot' : 'plain']);
  const marked = new ValueRun(evidence.values[decimal === '.' ? 'dot' : 'comma']);
  let at = from;
  for (; at < to; at++) {
    const look = looks[at];
    if (look === cellLook.digits && hasSamples) digits.add(values[at] as number);
    else if (look === cellLook.marked && takesMarked) marked.add(values[at] as number);
    else if (look !== cellLook.empty) break;
  }
  // A column with a point in it and no comma is not asked again what a comma would make of its digits.
  evidence[isDotOnly ? 'dot' : 'plain'] += digits.end();
  evidence[decimal === '.' ? 'dot' : 'comma'] += marked.end();
  return at;
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
  const { shape, dot, comma } = fit;
  evidence[shape]++;
  keepSample(evidence.samples[shape], line, text);
  if (shape === 'plain' && dot !== null) {
    addMarked(evidence.values.plain, number, dot);
    return;
  }
  if (dot !== null) addMarked(evidence.values.dot, number, dot);
  if (comma !== null) addMarked(evidence.values.comma, number, comma);
}

function addUnit(evidence: NumberEvidence, unit: string): void {
  const seen = evidence.units.get(unit);
  if (seen !== undefined || evidence.units.size < mostUnits) evidence.units.set(unit, (seen ?? 0) + 1);
}

function addMarked(values: ValueEvidence, text: string, marks: NumberMarks): void {
  addValue(values, scanNumber(text, marks));
  if (marks.group !== null) values.groups.set(marks.group, (values.groups.get(marks.group) ?? 0) + 1);
}

function addValue(values: ValueEvidence, value: number): void {
  values.count++;
  if (value < values.least) values.least = value;
  if (value > values.greatest) values.greatest = value;
  if (value >= leastDensity && value <= greatestDensity) addDensity(values.densityFits, value);
}

function addDensity(fits: number[], value: number): void {
  for (let i = 0; i < densityRanges.length; i++) {
    const range = densityRanges[i];
    if (range !== undefined && value >= range[0] && value <= range[1]) fits[i] = (fits[i] ?? 0) + 1;
  }
}

/** All values of a column that a decimal mark reads. */
export function valuesWith(evidence: NumberEvidence, decimal: '.' | ','): ValueEvidence {
  const { plain } = evidence.values;
  const marked = evidence.values[decimal === '.' ? 'dot' : 'comma'];
  const groups = new Map(plain.groups);
  for (const [group, count] of marked.groups) groups.set(group, (groups.get(group) ?? 0) + count);
  return {
    count: plain.count + marked.count,
    least: Math.min(plain.least, marked.least),
    greatest: Math.max(plain.greatest, marked.greatest),
    densityFits: plain.densityFits.map((count, i) => count + (marked.densityFits[i] ?? 0)),
    groups
  };
}

/** The group mark a column needs: the one met most often, null where none was met. */
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
