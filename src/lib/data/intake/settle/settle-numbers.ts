import { unitOf, type Quantity } from '#lib/core/units/index.ts';
import { splitKey } from '#lib/data/record/index.ts';
import { valuesWith, type NumberEvidence } from '../evidence/number-evidence.ts';
import type { ColumnRole } from '../header/recognise.ts';
import type { NumberReading } from '../layout.ts';
import { numberFinding, unitFinding } from './findings.ts';
import { fileDecimal, settleMarks } from './marks.ts';
import { fieldOf, type Settlement } from './settlement.ts';
import { settleUnit } from './units.ts';
import { isNeverRead, isUnlikelySize } from './unlikely.ts';

/** Settles all columns of numbers: what one of them proves of the decimal mark helps the others. */
export function settleNumbers(settlement: Settlement, roles: readonly ColumnRole[]): void {
  const numbers: [ColumnRole, NumberEvidence][] = [];
  for (const role of roles) {
    if (fieldOf(role.key).kind !== 'number') continue;
    const evidence = settlement.column(role.column)?.number ?? null;
    if (evidence === null) settlement.needsPass = true;
    else numbers.push([role, evidence]);
  }
  const file = fileDecimal(numbers.map(([, evidence]) => evidence));
  for (const [role, evidence] of numbers) {
    const field = fieldOf(role.key);
    if (field.kind === 'number') settleNumber(settlement, role, field.quantity, evidence, file);
  }
}

function settleNumber(
  settlement: Settlement,
  role: ColumnRole,
  quantity: Quantity,
  evidence: NumberEvidence,
  file: '.' | ',' | null
): void {
  const header = settlement.header(role.column);
  const marks = settleMarks(evidence, role.column, header, file, settlement.asking);
  const unitWords = role.unitColumn === null ? null : (settlement.column(role.unitColumn)?.words ?? null);
  const decimal = marks?.marks.decimal ?? '.';
  const unit = settleUnit({ role, header, quantity, decimal, evidence, unitWords }, settlement.asking);
  const sign = role.key === 'recordedDiscrepancy' ? askSign(settlement, role.column, header, evidence) : 1;
  if (unit?.unit != null && unitOf(unit.unit).at60F === true) settlement.note('densityAt60F', null, header);
  settlement.findings[role.column] = numberFinding(role, settlement.evidence, marks, unit);
  if (role.unitColumn !== null) settlement.findings[role.unitColumn] = unitFinding(role, settlement.evidence);
  settlement.noteMissing(role.column);
  if (evidence.dot > 0 && evidence.comma > 0)
    settlement.note('mixedMarks', evidence.samples.comma[0]?.line ?? null, header);
  if (marks === null || unit === null || sign === null) return;
  const values = valuesWith(evidence, decimal);
  if (unit.unit !== null && values.greatest > 0 && isUnlikelySize(splitKey(role.key).name, unit.unit, values))
    settlement.note('unlikelySize', null, header);
  const zeroIsMissing = isNeverRead(splitKey(role.key).name, values);
  if (zeroIsMissing) settlement.note('zerosNotRead', null, header);
  const reading: NumberReading = {
    kind: 'number',
    key: role.key,
    column: role.column,
    marks: marks.marks,
    proven: marks.proven,
    unit: unit.unit,
    unitBySize: unit.from === 'size',
    zeroIsMissing,
    unitColumn: unit.from === 'column' ? role.unitColumn : null,
    unitWords: unit.unitWords,
    sign
  };
  settlement.readings.push(reading);
}

function askSign(
  settlement: Settlement,
  column: number,
  header: string,
  evidence: NumberEvidence
): 1 | -1 | null {
  const samples = [...evidence.samples.dot, ...evidence.samples.comma, ...evidence.samples.plain].slice(0, 3);
  const says = (plus: string, minus: string) =>
    samples.map(({ line, text }) => ({ line, text, reading: /^\s*[-\u2212]/.test(text) ? minus : plus }));
  const answer = settlement.asking.ask({
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
