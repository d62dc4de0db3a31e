import { unitOf, type Quantity } from '#lib/core/units/index.ts';
import { fieldNamed, splitKey, type ColumnKey, type FieldDefinition } from '#lib/data/record/index.ts';
import { noteWords, type NoteCode } from '#lib/data/words/index.ts';
import type { ColumnEvidence } from '../evidence/gather.ts';
import type { FileEvidence } from '../evidence/file-evidence.ts';
import type { NumberEvidence } from '../evidence/number-evidence.ts';
import type { TimeEvidence } from '../evidence/time-evidence.ts';
import { recognise, type ColumnRole, type Recognition } from '../header/recognise.ts';
import type { ColumnFinding, ColumnReading, Note, NumberReading, TimeReading } from '../layout.ts';
import type { Question } from '../question.ts';
import { statedOrder, isZone } from '../times/index.ts';
import { Asking } from './asking.ts';
import { askAboutFields, askClock, chosenColumns } from './fields.ts';
import {
  numberFinding,
  stateFinding,
  textFinding,
  timeFinding,
  unitFinding,
  unmappedFinding
} from './findings.ts';
import { fileDecimal, settleMarks } from './marks.ts';
import { settleConstants } from './constants.ts';
import { settleDates } from './dates.ts';
import { settleStates } from './states.ts';
import { freeClocks, planTimes, type TimePlan } from './time-plan.ts';
import { settleUnit } from './units.ts';
import { settleZone } from './zone.ts';

/** What is settled about a file with the answers in hand. */
export interface Settled {
  readonly readings: readonly ColumnReading[];
  readonly findings: readonly ColumnFinding[];
  readonly questions: readonly Question[];
  readonly constants: readonly (readonly [ColumnKey, string])[];
  readonly notes: readonly Note[];
  /** True where a column was chosen that the pass did not look at in the way its field needs. */
  readonly needsPass: boolean;
}

/** Settles readings from evidence and answers; what stays open is a question without an answer. */
export function settle(
  evidence: FileEvidence,
  answers: ReadonlyMap<string, string>,
  stationZones: readonly (readonly [string, string])[]
): Settled {
  return new Settlement(evidence, answers, stationZones).result();
}

class Settlement {
  readonly #evidence: FileEvidence;
  readonly #answers: ReadonlyMap<string, string>;
  readonly #stationZones: readonly (readonly [string, string])[];
  readonly #asking: Asking;
  readonly #recognition: Recognition;
  readonly #readings: ColumnReading[] = [];
  readonly #findings: (ColumnFinding | undefined)[];
  readonly #notes: Note[] = [];
  #needsPass = false;

  constructor(
    evidence: FileEvidence,
    answers: ReadonlyMap<string, string>,
    stationZones: readonly (readonly [string, string])[]
  ) {
    this.#evidence = evidence;
    this.#answers = answers;
    this.#stationZones = stationZones;
    this.#asking = new Asking(answers, (kind, answer) =>
      kind === 'zone' ? answer.startsWith('zone:') && isZone(answer.slice(5)) : /^constant:./.test(answer)
    );
    this.#recognition = recognise(evidence.sights, chosenColumns(answers));
    this.#findings = evidence.sights.map(() => undefined);
  }

  result(): Settled {
    const roles = this.#recognition.roles;
    const times = planTimes(roles, new Set(chosenColumns(this.#answers).keys()));
    askAboutFields(this.#evidence, this.#recognition, times, this.#asking);
    this.#settleNumbers(roles);
    this.#settleTimes(times.plans);
    for (const role of roles) this.#settleOther(role);
    for (const { column, key } of this.#recognition.misfits) this.#settleMisfit(column, key);
    const constants = settleConstants(
      this.#evidence,
      this.#readings,
      this.#answers,
      this.#asking,
      this.#notes
    );
    return {
      readings: this.#readings,
      findings: this.#evidence.sights.map((_, column) => this.#findings[column] ?? this.#restFinding(column)),
      questions: this.#asking.questions,
      constants,
      notes: this.#notes,
      needsPass: this.#needsPass
    };
  }

  #note(code: NoteCode, line: number | null, detail: string): void {
    this.#notes.push({ code, line, words: `${noteWords[code]}: ${detail}` });
  }

  #column(column: number): ColumnEvidence | undefined {
    return this.#evidence.columns[column];
  }

  #header(column: number): string {
    const header = this.#evidence.sights[column]?.header ?? '';
    return header === '' ? `column ${column + 1}` : header;
  }

  #settleNumbers(roles: readonly ColumnRole[]): void {
    const numbers: [ColumnRole, NumberEvidence][] = [];
    for (const role of roles) {
      if (fieldOf(role.key).kind !== 'number') continue;
      const evidence = this.#column(role.column)?.number ?? null;
      if (evidence === null) this.#needsPass = true;
      else numbers.push([role, evidence]);
    }
    const file = fileDecimal(numbers.map(([, evidence]) => evidence));
    for (const [role, evidence] of numbers) {
      const field = fieldOf(role.key);
      if (field.kind === 'number') this.#settleNumber(role, field.quantity, evidence, file);
    }
  }

  #settleNumber(
    role: ColumnRole,
    quantity: Quantity,
    evidence: NumberEvidence,
    file: '.' | ',' | null
  ): void {
    const header = this.#header(role.column);
    const marks = settleMarks(evidence, role.column, header, file, this.#asking);
    const unitWords = role.unitColumn === null ? null : (this.#column(role.unitColumn)?.words ?? null);
    const decimal = marks?.marks.decimal ?? '.';
    const unit = settleUnit({ role, header, quantity, decimal, evidence, unitWords }, this.#asking);
    const sign = role.key === 'recordedDiscrepancy' ? this.#askSign(role.column, header, evidence) : 1;
    if (unit?.unit != null && unitOf(unit.unit).at60F === true) this.#note('densityAt60F', null, header);
    this.#findings[role.column] = numberFinding(role, this.#evidence, marks, unit);
    if (role.unitColumn !== null) this.#findings[role.unitColumn] = unitFinding(role, this.#evidence);
    this.#noteMissing(role.column);
    if (evidence.dot > 0 && evidence.comma > 0) this.#note('mixedMarks', firstLine(evidence), header);
    if (marks === null || unit === null || sign === null) return;
    const reading: NumberReading = {
      kind: 'number',
      key: role.key,
      column: role.column,
      marks: marks.marks,
      proven: marks.proven,
      unit: unit.unit,
      unitColumn: unit.from === 'column' ? role.unitColumn : null,
      unitWords: unit.unitWords,
      sign
    };
    this.#readings.push(reading);
  }

  #askSign(column: number, header: string, evidence: NumberEvidence): 1 | -1 | null {
    const samples = [...evidence.samples.dot, ...evidence.samples.comma, ...evidence.samples.plain].slice(
      0,
      3
    );
    const says = (plus: string, minus: string) =>
      samples.map(({ line, text }) => ({ line, text, reading: /^\s*[-\u2212]/.test(text) ? minus : plus }));
    const answer = this.#asking.ask({
      id: `sign:${column}`,
      kind: 'sign',
      column,
      about: header,
      count: evidence.plain + evidence.dot + evidence.comma + evidence.either,
      readings: [
        {
          id: 'gaugeSaysMore',
          words: 'plus: the gauge says more than the meter',
          samples: says('gauge says more', 'meter says more')
        },
        {
          id: 'meterSaysMore',
          words: 'plus: the meter says more than the gauge',
          samples: says('meter says more', 'gauge says more')
        }
      ]
    });
    return answer === 'gaugeSaysMore' ? 1 : answer === 'meterSaysMore' ? -1 : null;
  }

  #settleTimes(plans: readonly TimePlan[]): void {
    const dates = plans
      .map(({ column }) => this.#column(column)?.time ?? null)
      .filter((time) => time !== null);
    for (const plan of plans) this.#settleTime(this.#withClock(plan), dates);
  }

  /** A date that stands alone beside a column of clocks: whether they belong together is asked. */
  #withClock(plan: TimePlan): TimePlan {
    const clocks = freeClocks(this.#evidence.sights, this.#recognition);
    const hasClock = plan.clockColumn !== null || (this.#column(plan.column)?.time?.withClock ?? 0) > 0;
    if (hasClock || clocks.length === 0) return plan;
    const answer = askClock(plan, clocks, this.#evidence, this.#asking);
    return answer === null || answer === 'none' ? plan : { ...plan, clockColumn: Number(answer) };
  }

  #settleTime(plan: TimePlan, dates: readonly TimeEvidence[]): void {
    const evidence = this.#column(plan.column)?.time ?? null;
    const clock = plan.clockColumn === null ? null : (this.#column(plan.clockColumn)?.time ?? null);
    if (evidence === null || (plan.clockColumn !== null && clock === null)) {
      this.#needsPass = true;
      return;
    }
    const header = this.#header(plan.column);
    const sight = this.#evidence.sights[plan.column];
    const stated = statedOrder(sight?.header ?? '') ?? statedOrder(sight?.unit ?? '');
    const settled = settleDates(
      { evidence, column: plan.column, header, stated, columns: dates },
      this.#asking
    );
    const zone = settleZone(plan, settled, this.#evidence, this.#stationZones.length, this.#asking);
    const chosen = new Set(
      this.#recognition.roles.filter((role) => role.isChosen).map((role) => role.column)
    );
    for (const finding of timeFinding(plan, chosen, this.#evidence, settled)) {
      this.#findings[finding.index] ??= finding;
    }
    this.#noteMissing(plan.column);
    this.#noteDates(evidence, clock, header);
    if (settled === null || zone === null) return;
    const reading: TimeReading = {
      kind: 'time',
      key: plan.key,
      column: plan.column,
      clockColumn: plan.clockColumn,
      order: settled.order,
      proven: settled.proven,
      serial: settled.serial,
      ...zone
    };
    this.#readings.push(reading);
  }

  /** What changes the discrepancy must not be left out unseen; of other fields the note is enough. */
  #settleMisfit(column: number, key: ColumnKey): void {
    this.#note('unitNotOfField', null, this.#header(column));
    if (key === 'defuelled' || key === 'groundBurn') this.#readings.push({ kind: 'misfit', key, column });
  }

  #noteDates(evidence: TimeEvidence, clock: TimeEvidence | null, header: string): void {
    const mixed = Object.values(evidence.only).filter((count) => count > 0).length > 1;
    if (mixed) this.#note('mixedDates', null, header);
    if (evidence.serial > 0) this.#note('serialDates', evidence.samples[0]?.line ?? null, header);
    if (evidence.twoDigitYears > 0) this.#note('twoDigitYears', evidence.samples[0]?.line ?? null, header);
    if (clock === null && evidence.withClock === 0 && evidence.cells > evidence.bad) {
      this.#note('dateOnly', evidence.samples[0]?.line ?? null, header);
    }
  }

  #noteMissing(column: number): void {
    for (const [word, count] of this.#column(column)?.missing ?? []) {
      this.#note(
        'missingMarkers',
        null,
        `“${word}” in ${this.#header(column)}, ${count === 1 ? 'once' : `${count} times`}`
      );
    }
  }

  #settleOther(role: ColumnRole): void {
    const field = fieldOf(role.key);
    const { column, key } = role;
    if (field.kind === 'name' || field.kind === 'text') {
      this.#findings[column] = textFinding(role, this.#evidence);
      this.#readings.push({ kind: field.kind, key, column });
      return;
    }
    if (field.kind !== 'check' && field.kind !== 'choice') return;
    const words = this.#column(column)?.words ?? null;
    if (words === null) {
      this.#needsPass = true;
      return;
    }
    const settled = settleStates(
      words,
      field,
      splitKey(key).name,
      column,
      this.#header(column),
      this.#asking
    );
    this.#findings[column] = stateFinding(role, this.#evidence, settled);
    if (settled !== null) {
      this.#readings.push({
        kind: field.kind,
        key,
        column,
        words: settled.words,
        ppmLimit: settled.ppmLimit
      });
    }
  }

  #restFinding(column: number): ColumnFinding {
    return unmappedFinding(column, this.#evidence);
  }
}

function fieldOf(key: ColumnKey): FieldDefinition {
  return fieldNamed(splitKey(key).name);
}

function firstLine(evidence: NumberEvidence): number | null {
  return evidence.samples.comma[0]?.line ?? null;
}
