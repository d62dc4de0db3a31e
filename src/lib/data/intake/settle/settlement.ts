import { fieldNamed, splitKey, type ColumnKey, type FieldDefinition } from '#lib/data/record/index.ts';
import { noteWords, type NoteCode } from '#lib/data/words/index.ts';
import type { FileEvidence } from '../evidence/file-evidence.ts';
import type { ColumnEvidence } from '../evidence/gather.ts';
import { recognise, type Recognition } from '../header/recognise.ts';
import type { ColumnFinding, ColumnReading, Note } from '../layout.ts';
import { isZone } from '../times/index.ts';
import { Asking } from './asking.ts';
import { chosenColumns } from './fields.ts';

/** What is settled of a file while one column after the other is gone through. */
export class Settlement {
  readonly evidence: FileEvidence;
  readonly asking: Asking;
  readonly recognition: Recognition;
  readonly readings: ColumnReading[] = [];
  readonly findings: (ColumnFinding | undefined)[];
  readonly notes: Note[] = [];
  /** True where a column was chosen that the pass did not look at in the way its field needs. */
  needsPass = false;

  constructor(evidence: FileEvidence, answers: ReadonlyMap<string, string>) {
    this.evidence = evidence;
    this.asking = new Asking(answers, isOtherAnswer);
    this.recognition = recognise(evidence.sights, chosenColumns(answers));
    this.findings = evidence.sights.map(() => undefined);
  }

  note(code: NoteCode, line: number | null, detail: string): void {
    this.notes.push({ code, line, words: `${noteWords[code]}: ${detail}` });
  }

  column(column: number): ColumnEvidence | undefined {
    return this.evidence.columns[column];
  }

  header(column: number): string {
    const header = this.evidence.sights[column]?.header ?? '';
    return header === '' ? `column ${column + 1}` : header;
  }

  /** Tells which words of a column were read as missing. */
  noteMissing(column: number): void {
    for (const [word, count] of this.column(column)?.missing ?? []) {
      const times = count === 1 ? 'once' : `${count} times`;
      this.note('missingMarkers', null, `“${word}” in ${this.header(column)}, ${times}`);
    }
  }
}

function isOtherAnswer(kind: 'zone' | 'constant', answer: string): boolean {
  if (kind === 'zone') return answer.startsWith('zone:') && isZone(answer.slice(5));
  return answer.startsWith('constant:') && answer.length > 9;
}

export function fieldOf(key: ColumnKey): FieldDefinition {
  return fieldNamed(splitKey(key).name);
}
