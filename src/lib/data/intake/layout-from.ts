import type { FileBasis, Inspection } from './inspection.ts';
import type { AskedQuestion, Layout } from './layout.ts';
import { answerMap, type Answer, type Question } from './question.ts';
import { questionsOf, settleBasis } from './settle/basis.ts';

/** Why there is no layout yet: questions without an answer, or answers that need another look at the file. */
export interface Unsettled {
  readonly unanswered: readonly string[];
  /** True where an answer changed what a column is or how the file is cut: `inspect` it again with the answers. */
  readonly inspectAgain: boolean;
}

/** The layout that an inspection and the answers to its questions make. */
export function layoutFrom(inspection: Inspection, answers: readonly Answer[]): Layout | Unsettled {
  if (inspection.remembered !== null) return inspection.remembered.layout;
  const { basis } = inspection;
  if (basis === null) return { unanswered: [], inspectAgain: false };
  const given = answerMap(answers);
  const settled = settleBasis(basis, given);
  const questions = questionsOf(basis, settled, given);
  const unanswered = questions
    .filter(({ answer, byDefault }) => answer === null && byDefault === null)
    .map(({ id }) => id);
  const inspectAgain = settled.needsPass || isCutAnew(basis, given);
  if (unanswered.length > 0 || inspectAgain) return { unanswered, inspectAgain };
  return {
    format: 'layout/1',
    fingerprint: basis.fingerprint,
    dialect: basis.dialect,
    encoding: basis.encoding,
    lineEnds: basis.lineEnds,
    headerLine: basis.headerLine,
    headers: basis.headers,
    width: basis.width,
    unitsRow: basis.unitsRow,
    ownExport: basis.ownExport,
    columns: settled.readings,
    constants: settled.constants,
    stationZones: basis.stationZones,
    checked: true,
    findings: settled.findings,
    questions: [...questions.map(askedQuestion), ...unaskedAnswers(questions, answers)],
    notes: [...basis.notes, ...settled.notes]
  };
}

/** True where the delimiter or the encoding answered is not the one the file was read with. */
function isCutAnew(basis: FileBasis, given: ReadonlyMap<string, string>): boolean {
  const { delimiter, encoding } = basis.dialect;
  return (
    (given.get('delimiter') ?? delimiter) !== delimiter || (given.get('encoding') ?? encoding) !== encoding
  );
}

function askedQuestion({ id, column, readings, answer, byDefault }: Question): AskedQuestion {
  return { id, column, readings: readings.map((reading) => reading.id), answer: answer ?? byDefault };
}

/** What a person said without being asked: the field, unit or marks of a column, or a value for all records. */
function unaskedAnswers(questions: readonly Question[], answers: readonly Answer[]): AskedQuestion[] {
  const asked = new Set(questions.map(({ id }) => id));
  return answers
    .filter(({ id }) => !asked.has(id))
    .map(({ id, answer }) => {
      const column = /^[a-zA-Z]+:(\d{1,4})/.exec(id)?.[1];
      return { id, column: column === undefined ? null : Number(column), readings: [], answer };
    });
}
