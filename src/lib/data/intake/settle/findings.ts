import { unitOf } from '#lib/core/units/index.ts';
import { readingWords } from '#lib/data/words/index.ts';
import type { FileEvidence } from '../evidence/file-evidence.ts';
import type { TimeEvidence } from '../evidence/time-evidence.ts';
import type { ColumnRole } from '../header/recognise.ts';
import type { ColumnFinding } from '../layout.ts';
import { timeWords, type SettledDates } from './dates.ts';
import { numberWith, type SettledMarks } from './marks.ts';
import type { SettledStates } from './states.ts';
import type { TimePlan } from './time-plan.ts';
import type { SettledUnit } from './units.ts';

/** A column that no field takes. */
export function unmappedFinding(column: number, evidence: FileEvidence): ColumnFinding {
  const samples = evidence.columns[column]?.samples ?? [];
  return {
    index: column,
    header: evidence.sights[column]?.header ?? '',
    field: null,
    part: null,
    unit: null,
    unitFrom: null,
    how: null,
    agree: 0,
    disagree: 0,
    samples: samples.map(({ line, text }) => ({ line, text, reading: text })),
    proof: null
  };
}

function howOf(role: ColumnRole): ColumnFinding['how'] {
  if (role.isChosen) return 'answer';
  return role.exact ? 'header' : 'likeHeader';
}

/** A column kept as text. */
export function textFinding(role: ColumnRole, evidence: FileEvidence): ColumnFinding {
  return {
    ...unmappedFinding(role.column, evidence),
    field: role.key,
    part: 'whole',
    how: howOf(role),
    agree: evidence.columns[role.column]?.filled ?? 0
  };
}

export function numberFinding(
  role: ColumnRole,
  evidence: FileEvidence,
  marks: SettledMarks | null,
  unit: SettledUnit | null
): ColumnFinding {
  const base = textFinding(role, evidence);
  const symbol = unit === null || unit.unit === null ? '' : ` ${unitOf(unit.unit).symbol}`;
  return {
    ...base,
    unit: unit?.unit ?? null,
    unitFrom: unit?.from ?? null,
    agree: marks?.agree ?? 0,
    disagree: marks?.disagree ?? 0,
    samples: base.samples.map(({ line, text }) => {
      const value = marks === null ? NaN : numberWith(text, marks.marks.decimal);
      return { line, text, reading: Number.isNaN(value) ? text : `${value}${symbol}` };
    })
  };
}

/** The column that names the units of another. */
export function unitFinding(role: ColumnRole, evidence: FileEvidence): ColumnFinding {
  const column = role.unitColumn ?? 0;
  const filled = evidence.columns[column]?.filled ?? 0;
  return {
    ...unmappedFinding(column, evidence),
    field: role.key,
    part: 'unit',
    how: 'content',
    agree: filled
  };
}

/** The date of a column that shows its order, where one does. */
function orderProof(time: TimeEvidence, settled: SettledDates | null): ColumnFinding['proof'] {
  const order = settled?.order ?? null;
  const [sample] = order === null ? [] : time.onlySamples[order];
  return order === null || sample === undefined ? null : { ...sample, reading: readingWords[order] };
}

/** The column of a time field, or its date and its clock column. */
export function timeFinding(
  plan: TimePlan,
  chosen: ReadonlySet<number>,
  evidence: FileEvidence,
  settled: SettledDates | null
): ColumnFinding[] {
  const found = [plan.column, plan.clockColumn].flatMap((column): ColumnFinding[] => {
    if (column === null) return [];
    const time = evidence.columns[column]?.time ?? null;
    const base = unmappedFinding(column, evidence);
    const isClock = column === plan.clockColumn;
    return [
      {
        ...base,
        field: plan.key,
        part: plan.clockColumn === null ? 'whole' : isClock ? 'clock' : 'date',
        how: chosen.has(column) ? 'answer' : 'header',
        agree: isClock ? (time?.clockOnly ?? 0) : (settled?.agree ?? 0),
        disagree: isClock ? (time?.cells ?? 0) - (time?.clockOnly ?? 0) : (settled?.disagree ?? 0),
        samples: base.samples.map(({ line, text }) => {
          return { line, text, reading: timeWords(text, settled?.order ?? null, settled?.serial ?? null) };
        }),
        proof: time === null ? null : orderProof(time, settled)
      }
    ];
  });
  return found;
}

export function stateFinding(
  role: ColumnRole,
  evidence: FileEvidence,
  settled: SettledStates | null
): ColumnFinding {
  return { ...textFinding(role, evidence), agree: settled?.agree ?? 0, disagree: settled?.disagree ?? 0 };
}
