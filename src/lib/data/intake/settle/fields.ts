import { fieldNamed, isFieldName, splitKey, type ColumnKey, type FieldName } from '#lib/data/record/index.ts';
import type { FileEvidence } from '../evidence/file-evidence.ts';
import { isNumberColumn, isTimeColumn } from '../header/content.ts';
import { recognise, type Recognition } from '../header/recognise.ts';
import type { Reading } from '../question.ts';
import { wordedReading, type Asking } from './asking.ts';
import { planTimes, type TimePlan, type TimePlans } from './time-plan.ts';

/** A column key in an answer, null where the text names no field. */
export function keyOf(text: string): ColumnKey | null {
  const colon = text.indexOf(':');
  const name = colon < 0 ? text : text.slice(0, colon);
  if (!isFieldName(name)) return null;
  return colon < 0 ? name : `${name}:${text.slice(colon + 1)}`;
}

/** Columns that a person has given a field, or none: from answers to `column:7` and `field:station`. */
export function chosenColumns(answers: ReadonlyMap<string, string>): Map<number, ColumnKey | null> {
  const chosen = new Map<number, ColumnKey | null>();
  for (const [id, answer] of answers) {
    if (id.startsWith('field:')) {
      const key = keyOf(id.slice(6));
      if (key !== null && /^\d{1,4}$/.test(answer)) chosen.set(Number(answer), key);
    }
  }
  for (const [id, answer] of answers) {
    if (!id.startsWith('column:')) continue;
    const column = Number(id.slice(7));
    if (answer === 'none') chosen.set(column, null);
    else if (keyOf(answer) !== null) chosen.set(column, keyOf(answer));
  }
  return chosen;
}

/**
 * Asks which column is which: what a file without any answer would be asked and has an answer, so that it is kept
 * with its question, then what the answers leave open.
 */
export function askAboutFields(
  evidence: FileEvidence,
  settled: Recognition,
  times: TimePlans,
  asking: Asking
): void {
  const open = recognise(evidence.sights, new Map());
  const answered = asking.onlyAnswered();
  askFields(evidence, open, planTimes(open.roles, new Set()), answered);
  asking.take(answered);
  askFields(evidence, settled, times, asking);
}

/** Asks where the header leaves it open, and for fields no record can do without. */
function askFields(evidence: FileEvidence, recognition: Recognition, times: TimePlans, asking: Asking): void {
  const asked = new Set<ColumnKey>();
  for (const doubt of recognition.doubts) {
    if (doubt.kind === 'field') {
      asked.add(doubt.key);
      askField(doubt.key, doubt.columns, evidence, asking, true);
    } else {
      askColumn(doubt.column, doubt.keys, evidence, asking);
    }
  }
  for (const doubt of times.doubts) {
    asked.add(doubt.key);
    askField(doubt.key, doubt.columns, evidence, asking, true);
  }
  const known = new Set<ColumnKey>([
    ...recognition.roles
      .filter(({ key }) => fieldNamed(splitKey(key).name).kind !== 'time')
      .map(({ key }) => key),
    ...times.plans.map(({ key }) => key),
    ...asked
  ]);
  for (const key of neededKeys(known, recognition))
    askField(key, freeColumns(key, evidence, recognition), evidence, asking, false);
}

/** Fields that every record needs and the file seems not to have; volume stands for all quantities. */
function neededKeys(known: ReadonlySet<ColumnKey>, recognition: Recognition): FieldName[] {
  const missing = (['time', 'station', 'tail'] as const).filter((key) => !known.has(key));
  const isMetered = known.has('meterStart') && known.has('meterStop');
  const asColumn = recognition.doubts.flatMap((doubt) => (doubt.kind === 'column' ? doubt.keys : []));
  const hasQuantity =
    isMetered ||
    (['volume', 'netVolume', 'defuelled'] as const).some((key) => known.has(key) || asColumn.includes(key));
  return hasQuantity ? [...missing] : [...missing, 'volume'];
}

/** Columns without a field whose content could be this field's. */
function freeColumns(key: FieldName, evidence: FileEvidence, recognition: Recognition): number[] {
  const taken = new Set([
    ...recognition.roles.map(({ column }) => column),
    ...recognition.unitColumns.keys()
  ]);
  const { kind } = fieldNamed(key);
  const free: number[] = [];
  evidence.sights.forEach(({ content }, column) => {
    if (taken.has(column) || content.filled === 0) return;
    const isTime = isTimeColumn(content) && content.dates + content.instants > 0;
    const isNumber = isNumberColumn(content);
    if (kind === 'time' ? isTime : kind === 'number' ? isNumber : !isNumber && !isTime) free.push(column);
  });
  return free;
}

function columnReading(column: number, evidence: FileEvidence): Reading {
  const header = evidence.sights[column]?.header ?? '';
  const samples = evidence.columns[column]?.samples ?? [];
  return {
    id: String(column),
    words: header === '' ? `column ${column + 1}` : `column ${column + 1}: ${header}`,
    samples: samples.map(({ line, text }) => ({ line, text, reading: text }))
  };
}

function askField(
  key: ColumnKey,
  columns: readonly number[],
  evidence: FileEvidence,
  asking: Asking,
  isOptional: boolean
): void {
  const { name } = splitKey(key);
  const field = fieldNamed(name);
  const isConstant = field.kind === 'name' && !isOptional;
  asking.ask({
    id: `field:${key}`,
    kind: 'field',
    column: columns[0] ?? null,
    about: field.label,
    count: 0,
    readings: columns.map((column) => columnReading(column, evidence)),
    ...(isConstant ? { other: 'constant' as const } : {})
  });
}

/** Asks which column of clocks belongs to a date that stands alone. */
export function askClock(
  plan: TimePlan,
  clocks: readonly number[],
  evidence: FileEvidence,
  asking: Asking
): string | null {
  return asking.ask({
    id: `clock:${plan.key}`,
    kind: 'clock',
    column: plan.column,
    about: evidence.sights[plan.column]?.header ?? '',
    count: evidence.columns[plan.column]?.filled ?? 0,
    readings: [...clocks.map((column) => columnReading(column, evidence)), wordedReading('none')]
  });
}

function askColumn(column: number, keys: readonly ColumnKey[], evidence: FileEvidence, asking: Asking): void {
  const samples = columnReading(column, evidence).samples;
  const readings = keys.map((key): Reading => ({
    id: key,
    words: fieldNamed(splitKey(key).name).label,
    samples
  }));
  asking.ask({
    id: `column:${column}`,
    kind: 'columnField',
    column,
    about: evidence.sights[column]?.header ?? '',
    count: evidence.columns[column]?.filled ?? 0,
    readings: [...readings, { id: 'none', words: 'none of these', samples: [] }]
  });
}
