import type { FormFault, RecordView } from '../tokeniser.ts';

/** What the records of a table look like: the header's texts, and how many cells a record has to have. */
export interface TableShape {
  readonly headers: readonly string[];
  readonly width: number;
}

export type WidthVerdict = 'fits' | 'tooFewCells' | 'tooManyCells' | 'extraEmptyCells';

/** A shifted cell is the worst fault there is, so a record needs exactly the header's cells; empty ones may follow. */
export function widthOf(record: RecordView, shape: TableShape): WidthVerdict {
  const { cellCount } = record;
  if (cellCount === shape.width) return 'fits';
  if (cellCount < shape.width) return 'tooFewCells';
  for (let cell = shape.width; cell < cellCount; cell++) if (!record.isEmpty(cell)) return 'tooManyCells';
  return cellCount <= shape.headers.length ? 'fits' : 'extraEmptyCells';
}

export function isBlank(record: RecordView): boolean {
  for (let cell = 0; cell < record.cellCount; cell++) if (!record.isEmpty(cell)) return false;
  return true;
}

/**
 * True for a line of text that somebody or some program set below or between the records: one filled cell with words
 * or nothing but marks in it, in a table that is too wide for that to be a record. A cell with a delimiter of another
 * kind is rather a record that went wrong.
 */
export function isLineOfText(record: RecordView, { width }: TableShape): boolean {
  if (width < narrowestWithText) return false;
  let filled = -1;
  for (let cell = 0; cell < record.cellCount; cell++) {
    if (record.isEmpty(cell)) continue;
    if (filled >= 0) return false;
    filled = cell;
  }
  if (filled < 0) return false;
  const text = record.text(filled).slice(0, 500).trim();
  if (/[;|\t]/.test(text)) return false;
  return /\p{L}[^\p{L}]* [^\p{L}]*\p{L}/u.test(text) || !/[\p{L}\p{N}]/u.test(text) || text.startsWith('#');
}

/** True where the text of a record is sound, whatever its form: the last line of a file may lack its line end. */
export function isFormOnly(fault: FormFault | null): boolean {
  return fault === null || fault.code === 'endsInMidRecord';
}

/** In a narrower table a line of one cell may as well be a record. */
const narrowestWithText = 4;

/** True where a record repeats the texts of the header, or of the row of units. */
export function repeats(record: RecordView, texts: readonly string[]): boolean {
  if (texts.length === 0) return false;
  const cells = Math.max(record.cellCount, texts.length);
  for (let cell = 0; cell < cells; cell++) {
    if (record.text(cell).trim().toLowerCase() !== (texts[cell] ?? '').trim().toLowerCase()) return false;
  }
  return true;
}

const totalWords = [
  'total',
  'totals',
  'subtotal',
  'sum',
  'somme',
  'gesamt',
  'summe',
  'totale',
  'suma',
  'soma'
];

/** True where a cell starts or ends with a word for a total. */
export function namesTotal(record: RecordView): boolean {
  for (let cell = 0; cell < record.cellCount; cell++) {
    if (!record.isEmpty(cell) && isTotalName(record.text(cell))) return true;
  }
  return false;
}

/** True for a text that starts or ends with a word for a total. */
export function isTotalName(text: string): boolean {
  const words = text
    .slice(0, 60)
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, ' ')
    .trim()
    .split(' ');
  return totalWords.includes(words[0] ?? '') || totalWords.includes(words[words.length - 1] ?? '');
}
