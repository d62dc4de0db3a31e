import type { Dictionary } from '#lib/data/columns/index.ts';
import type { NumberMarks, RecordView } from '../tokeniser.ts';
import { cellText } from './careful-reader.ts';
import { RecordScan } from './record-scan.ts';
import { scanNumber } from './scan-number.ts';

const encoder = new TextEncoder();
const decoder = new TextDecoder('utf-8', { ignoreBOM: true });

/** The record view of a reader that holds its cells as strings. */
export class TextRecord implements RecordView {
  line = 1;
  lines = 1;
  #cells: readonly string[] = [];
  /** A scan of the record that says which cells are quoted, made when first asked for. */
  #scan: RecordScan | null = null;
  #text = '';
  #start = 0;
  #end = 0;
  readonly #ownScan: RecordScan;

  constructor(delimiter: string) {
    this.#ownScan = new RecordScan(delimiter);
  }

  /** Takes the cells of a record whose text is [start, end); they are not copied. */
  setCells(cells: readonly string[], text: string, start: number, end: number): void {
    this.#cells = cells;
    this.#scan = null;
    this.#text = text;
    this.#start = start;
    this.#end = end;
  }

  /** Takes the cells of a scan, which stays as it is while the record is looked at. */
  setScan(scan: RecordScan, text: string): void {
    this.#cells = Array.from({ length: scan.count }, (_, cell) => cellText(scan, text, cell));
    this.#scan = scan;
  }

  get cellCount(): number {
    return this.#cells.length;
  }

  isEmpty(cell: number): boolean {
    return this.text(cell).trim() === '';
  }

  wasQuoted(cell: number): boolean {
    if (this.#scan === null) {
      this.#scan = this.#ownScan;
      this.#scan.scan(this.#text.slice(this.#start, this.#end), 0, true);
    }
    return cell < this.#scan.count && this.#scan.isQuoted(cell);
  }

  text(cell: number): string {
    return this.#cells[cell] ?? '';
  }

  number(cell: number, marks: NumberMarks): number {
    return scanNumber(this.text(cell), marks);
  }

  code(cell: number, dictionary: Dictionary): number {
    const text = this.text(cell).trim();
    // A cell is a slice that keeps its whole block alive; what the dictionary keeps is a copy.
    return dictionary.find(text) ?? dictionary.code(decoder.decode(encoder.encode(text)));
  }
}
