import { noteWords, type NoteCode } from '#lib/data/words/index.ts';
import { lineEndsOf, type CutFile } from './cut-file.ts';
import type { Note } from './layout.ts';

/** Remarks about the form of a file. */
export function fileNotes(file: CutFile): Note[] {
  const notes: Note[] = [];
  const add = (code: NoteCode, detail: string, line: number | null = null) =>
    notes.push({ code, line, words: detail === '' ? noteWords[code] : `${noteWords[code]}: ${detail}` });
  const { survey, head } = file;
  if (survey.how === 'notUtf8' || survey.how === 'nulParity') add('encodingGuessed', survey.name);
  if (survey.badBytes > 0) add('invalidBytes', String(survey.badBytes), survey.badLines[0]);
  if (lineEndsOf(survey.lineEnds) === 'mixed') {
    const { crlf, lf, cr } = survey.lineEnds;
    add('mixedLineEnds', `${crlf} CRLF, ${lf} LF, ${cr} CR`);
  }
  if (head.header.index < 0) add('headerless', '');
  const seen = new Set<string>();
  for (const header of head.header.headers) {
    if (header !== '' && seen.has(header)) add('duplicateHeader', header, head.header.line);
    seen.add(header);
  }
  return notes;
}
