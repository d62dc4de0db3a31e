import { marksFitting } from '../numbers/shape.ts';
import { scanNumber } from '../tokenise/scan-number.ts';
import type { NumberMarks } from '../tokeniser.ts';
import { groupMarkOf, valuesWith, type NumberEvidence } from '../evidence/number-evidence.ts';
import type { CellSample } from '../evidence/samples.ts';
import type { ReadingSample } from '../question.ts';
import { wordedReading, type Asking } from './asking.ts';

export type DecimalMark = '.' | ',';

/** The decimal mark of a column and what shows it. */
export interface SettledMarks {
  readonly marks: NumberMarks;
  readonly proven: boolean;
  readonly agree: number;
  readonly disagree: number;
}

/** The decimal mark that a column's own cells prove, null where they prove none or both. */
export function ownDecimal(evidence: NumberEvidence): DecimalMark | null {
  if (evidence.dot > 0 && evidence.comma === 0) return '.';
  return evidence.comma > 0 && evidence.dot === 0 ? ',' : null;
}

/** The decimal mark that all columns with proof share, null where there is none or they differ. */
export function fileDecimal(columns: readonly NumberEvidence[]): DecimalMark | null {
  const proven = new Set(columns.map(ownDecimal).filter((mark) => mark !== null));
  return proven.size === 1 ? ([...proven][0] ?? null) : null;
}

/** The number in a text with a decimal mark, whatever its group mark, NaN where it is none. */
export function numberWith(text: string, decimal: DecimalMark): number {
  const marks = marksFitting(text, decimal);
  return marks === null ? NaN : scanNumber(text, marks);
}

function readAs(samples: readonly CellSample[], decimal: DecimalMark): ReadingSample[] {
  return samples.map(({ line, text }) => {
    const value = numberWith(text, decimal);
    return { line, text, reading: Number.isNaN(value) ? 'cannot be read' : String(value) };
  });
}

/**
 * Settles the marks of a column from its cells, else from the other number columns of the file; else asks. Null while
 * the question is open. A column that proves both marks is always asked about: the other cells are refused.
 */
export function settleMarks(
  evidence: NumberEvidence,
  column: number,
  header: string,
  file: DecimalMark | null,
  asking: Asking
): SettledMarks | null {
  const id = `decimal:${column}`;
  const own = ownDecimal(evidence);
  const given = asking.given(id);
  const forced = given === 'dot' ? '.' : given === 'comma' ? ',' : null;
  const isMixed = evidence.dot > 0 && evidence.comma > 0;
  const isOpen = own === null && evidence.either > 0 && file === null;
  if (isMixed || isOpen) {
    const answer = askDecimal(evidence, id, column, header, asking);
    return answer === null ? null : marksOf(evidence, answer === 'dot' ? '.' : ',', true);
  }
  const decimal = forced ?? own ?? file ?? '.';
  return marksOf(evidence, decimal, forced !== null || own !== null || file !== null);
}

function askDecimal(
  evidence: NumberEvidence,
  id: string,
  column: number,
  header: string,
  asking: Asking
): string | null {
  const { dot, comma, either } = evidence.samples;
  const shown = [...dot.slice(0, 1), ...comma.slice(0, 1), ...either].slice(0, 3);
  return asking.ask({
    id,
    kind: 'decimal',
    column,
    about: header,
    count: evidence.either + evidence.dot + evidence.comma,
    readings: [wordedReading('dot', readAs(shown, '.')), wordedReading('comma', readAs(shown, ','))]
  });
}

function marksOf(evidence: NumberEvidence, decimal: DecimalMark, proven: boolean): SettledMarks {
  const values = valuesWith(evidence, decimal);
  const other = decimal === '.' ? evidence.comma : evidence.dot;
  return {
    marks: { decimal, group: groupMarkOf(values) },
    proven,
    agree: values.count,
    disagree: evidence.bad + other
  };
}
