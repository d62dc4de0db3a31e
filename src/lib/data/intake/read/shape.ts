import type { RecordView } from '../tokeniser.ts';

/** What the records of a table look like: the header's texts, and how many cells a record may have. */
export interface TableShape {
  readonly headers: readonly string[];
  /** Cells without the empty ones at the end of the header. */
  readonly width: number;
}

export function tableShape(headers: readonly string[], widest: number): TableShape {
  let width = headers.length;
  while (width > 0 && (headers[width - 1] ?? '') === '') width--;
  return { headers, width: headers.length === 0 ? widest : width };
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
    if (record.isEmpty(cell)) continue;
    const text = record.text(cell).slice(0, 60).toLowerCase();
    const words = text
      .replace(/[^\p{L}\p{N}]+/gu, ' ')
      .trim()
      .split(' ');
    if (totalWords.includes(words[0] ?? '') || totalWords.includes(words[words.length - 1] ?? ''))
      return true;
  }
  return false;
}
