import { splitKey, type ColumnKey } from '#lib/data/record/index.ts';
import type { ColumnRole } from '../header/recognise.ts';
import { stateFinding, textFinding } from './findings.ts';
import { fieldOf, type Settlement } from './settlement.ts';
import { settleStates } from './states.ts';

/** Settles a column of names, texts, checks or choices. */
export function settleOther(settlement: Settlement, role: ColumnRole): void {
  const field = fieldOf(role.key);
  const { column, key } = role;
  if (field.kind === 'name' || field.kind === 'text') {
    settlement.findings[column] = textFinding(role, settlement.evidence);
    settlement.readings.push({ kind: field.kind, key, column });
    return;
  }
  if (field.kind !== 'check' && field.kind !== 'choice') return;
  const words = settlement.column(column)?.words ?? null;
  if (words === null) {
    settlement.needsPass = true;
    return;
  }
  const settled = settleStates(
    words,
    field,
    splitKey(key).name,
    column,
    settlement.header(column),
    settlement.asking
  );
  settlement.findings[column] = stateFinding(role, settlement.evidence, settled);
  if (settled !== null) {
    settlement.readings.push({
      kind: field.kind,
      key,
      column,
      words: settled.words,
      ppmLimit: settled.ppmLimit
    });
  }
}

/** What changes the discrepancy must not be left out unseen; of other fields the note is enough. */
export function settleMisfit(settlement: Settlement, column: number, key: ColumnKey): void {
  settlement.note('unitNotOfField', null, settlement.header(column));
  if (key === 'defuelled' || key === 'groundBurn') settlement.readings.push({ kind: 'misfit', key, column });
}
