import { fieldNamed, splitKey, type ColumnKey } from '#lib/data/record/index.ts';
import { noteWords } from '#lib/data/words/index.ts';
import type { FileEvidence } from '../evidence/file-evidence.ts';
import type { ColumnReading, Note } from '../layout.ts';
import { wordedReading, type Asking } from './asking.ts';
import { keyOf } from './fields.ts';

/** Values that hold for every record: answered by a person, or a default that is noted. */
export function settleConstants(
  evidence: FileEvidence,
  readings: readonly ColumnReading[],
  answers: ReadonlyMap<string, string>,
  asking: Asking,
  notes: Note[]
): (readonly [ColumnKey, string])[] {
  const constants = new Map<ColumnKey, string>();
  for (const [id, answer] of answers) addGiven(id, answer, constants);
  const columnOf = (key: ColumnKey) => readings.find((reading) => reading.key === key)?.column ?? null;
  const header = (column: number) => evidence.sights[column]?.header ?? '';
  const ordered = columnOf('ordered');
  if (ordered !== null && columnOf('orderedBasis') === null) {
    const answer = asking.ask({
      id: 'orderedBasis',
      kind: 'orderedBasis',
      column: ordered,
      about: header(ordered),
      count: evidence.columns[ordered]?.filled ?? 0,
      readings: (['totalOnBoard', 'amountToAdd'] as const).map((id) =>
        wordedReading(id, samplesOf(evidence, ordered))
      )
    });
    if (answer !== null) constants.set('orderedBasis', answer);
  }
  const density = columnOf('densityObserved');
  if (density !== null && columnOf('densityMethod') === null) {
    const answer = asking.ask({
      id: 'densityMethod',
      kind: 'densityMethod',
      column: density,
      about: header(density),
      count: evidence.columns[density]?.filled ?? 0,
      readings: (['hydrometer', 'densitometer', 'inLine'] as const).map((id) =>
        wordedReading(id, samplesOf(evidence, density))
      ),
      byDefault: 'densitometer'
    });
    if (answer !== null) constants.set('densityMethod', answer);
    if (asking.given('densityMethod') === null) {
      notes.push({ code: 'densitometerAssumed', line: null, words: noteWords.densitometerAssumed });
    }
  }
  return [...constants];
}

function samplesOf(
  evidence: FileEvidence,
  column: number
): { line: number; text: string; reading: string }[] {
  return (evidence.columns[column]?.samples ?? []).map(({ line, text }) => ({ line, text, reading: text }));
}

/** `field:station` answered with `constant:JARV`, or `constant:supplier` answered with a name. */
function addGiven(id: string, answer: string, constants: Map<ColumnKey, string>): void {
  const isField = id.startsWith('field:') && answer.startsWith('constant:');
  const key = keyOf(isField ? id.slice(6) : id.startsWith('constant:') ? id.slice(9) : '');
  if (key === null) return;
  const { kind } = fieldNamed(splitKey(key).name);
  const value = (isField ? answer.slice(9) : answer).trim();
  if (kind === 'name' && value !== '') constants.set(key, value);
}
