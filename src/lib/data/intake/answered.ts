import type { Inspection } from './inspection.ts';
import { answerMap, type Answer } from './question.ts';
import { questionsOf, settleBasis } from './settle/basis.ts';

/** An inspection with the answers in hand: readings, notes and questions as they stand now. */
export function answered(inspection: Inspection, answers: readonly Answer[]): Inspection {
  const { basis } = inspection;
  if (basis === null) return inspection;
  const given = answerMap(answers);
  const settled = settleBasis(basis, given);
  return {
    ...inspection,
    columns: settled.findings,
    questions: questionsOf(basis, settled, given),
    notes: [...basis.notes, ...settled.notes]
  };
}
