import { isValueLike } from '../header/find.ts';
import { matchHeader } from '../header/match.ts';
import type { RecordView } from '../tokeniser.ts';
import { repeats, widthOf, type TableShape } from './shape.ts';

/** Header words that a record needs to be taken for the header of a table. */
const fewestKnown = 3;
const longestHeader = 80;

/**
 * Tells the records of a table from those of others in the same file, which may have as many cells: what stands below
 * a header with other columns is none of its records, until its own header comes again.
 */
export class TableWatch {
  /** True while the records are those of another table. */
  isElsewhere = false;
  readonly #shape: TableShape;

  constructor(shape: TableShape) {
    this.#shape = shape;
  }

  /** What a record is that does not read as data: the header once more, part of another table, or neither. */
  look(record: RecordView): 'repeatedHeader' | 'otherTable' | null {
    const { headers } = this.#shape;
    if (repeats(record, headers)) {
      this.isElsewhere = false;
      return 'repeatedHeader';
    }
    if (headers.length > 0 && this.#isHeader(record)) {
      this.isElsewhere = !namesSameColumns(record, headers);
      return this.isElsewhere ? 'otherTable' : 'repeatedHeader';
    }
    return this.isElsewhere ? 'otherTable' : null;
  }

  /** True where most cells are words that head columns and none is a value. */
  #isHeader(record: RecordView): boolean {
    const width = widthOf(record, this.#shape);
    if (width === 'tooFewCells' || width === 'tooManyCells') return false;
    let filled = 0;
    let known = 0;
    for (let cell = 0; cell < record.cellCount; cell++) {
      if (record.isEmpty(cell)) continue;
      const text = record.text(cell).trim();
      if (text.length > longestHeader || isValueLike(text)) return false;
      filled++;
      if (matchHeader(text).length > 0) known++;
    }
    return known >= fewestKnown && known * 2 >= filled && filled * 2 >= this.#shape.width;
  }
}

/** True where each cell heads the same field, in the same unit if it names one, as the header's cell does. */
function namesSameColumns(record: RecordView, headers: readonly string[]): boolean {
  return headers.every((header, cell) => {
    const text = record.text(cell).trim();
    if (text.toLowerCase() === header.toLowerCase()) return true;
    const before = matchHeader(header);
    return matchHeader(text).some(({ key, units }) => {
      const same = before.find((match) => match.key === key);
      return same !== undefined && (units.length === 0 || units.join() === same.units.join());
    });
  });
}
