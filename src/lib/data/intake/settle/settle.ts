import type { ColumnKey } from '#lib/data/record/index.ts';
import type { FileEvidence } from '../evidence/file-evidence.ts';
import type { ColumnFinding, ColumnReading, Note } from '../layout.ts';
import type { Question } from '../question.ts';
import { settleConstants } from './constants.ts';
import { askAboutFields, chosenColumns } from './fields.ts';
import { unmappedFinding } from './findings.ts';
import { settleNumbers } from './settle-numbers.ts';
import { settleMisfit, settleOther } from './settle-others.ts';
import { settleTimes } from './settle-times.ts';
import { Settlement } from './settlement.ts';
import { planTimes } from './time-plan.ts';

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
  const settlement = new Settlement(evidence, answers);
  const { asking, readings, findings, notes, recognition } = settlement;
  const times = planTimes(recognition.roles, new Set(chosenColumns(answers).keys()));
  askAboutFields(evidence, recognition, times, asking);
  settleNumbers(settlement, recognition.roles);
  settleTimes(settlement, times.plans, stationZones.length);
  for (const role of recognition.roles) settleOther(settlement, role);
  for (const { column, key } of recognition.misfits) settleMisfit(settlement, column, key);
  const constants = settleConstants(evidence, readings, answers, asking, notes);
  return {
    readings,
    findings: evidence.sights.map((_, column) => findings[column] ?? unmappedFinding(column, evidence)),
    questions: asking.questions,
    constants,
    notes,
    needsPass: settlement.needsPass
  };
}
