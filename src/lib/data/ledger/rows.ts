import { CodeColumn, ColumnSet, Dictionary } from '#lib/data/columns/index.ts';
import { checkStates, fieldNamed, upliftFields, type FieldName } from '#lib/data/record/index.ts';
import type { RecordAddress } from './address.ts';

/** A file whose records are in the ledger: one run of rows. */
export interface LedgerFile {
  readonly id: string;
  readonly name: string;
  readonly sha256: string;
  readonly firstRow: number;
  readonly rowCount: number;
}

/** Column of the physical line a record starts on, and of the lines it spans. */
export const lineKey = '#line';
export const linesKey = '#lines';

/** Texts that stand for the stored codes of a check or choice, code 0 being "not recorded". */
function fixedTexts(name: FieldName): readonly string[] | null {
  const field = fieldNamed(name);
  if (field.kind === 'check') return checkStates.slice(1);
  return field.kind === 'choice' ? field.choices : null;
}

function emptyColumns(): ColumnSet {
  const columns = new ColumnSet();
  for (const { name } of upliftFields) {
    const texts = fixedTexts(name);
    if (texts === null) continue;
    // The dictionary is filled before any file, so that a code means the same state in every file.
    const dictionary = new Dictionary();
    for (const text of texts) dictionary.code(text);
    columns.put(name, new CodeColumn(dictionary));
  }
  return columns;
}

/** The values as read from the files, in the order the files were taken in. */
export class SourceRows {
  #columns = emptyColumns();
  #files: LedgerFile[] = [];

  get columns(): ColumnSet {
    return this.#columns;
  }

  get files(): readonly LedgerFile[] {
    return this.#files;
  }

  get rowCount(): number {
    return this.#columns.rowCount;
  }

  /** Adds records at the end; further batches of one file must follow each other. */
  append(file: { id: string; name: string; sha256: string }, batch: ColumnSet): void {
    const last = this.#files.at(-1);
    const firstRow = this.#columns.rowCount;
    this.#columns.append(batch);
    if (last?.id === file.id) {
      this.#files[this.#files.length - 1] = { ...last, rowCount: last.rowCount + batch.rowCount };
    } else {
      this.#files.push({ ...file, firstRow, rowCount: batch.rowCount });
    }
  }

  /** Makes room for so many more records of the file last added to, so that adding them copies nothing. */
  reserve(more: number): void {
    this.#columns.reserve(this.rowCount + more);
  }

  /** Names the hash of a file once it is known. */
  setHash(id: string, sha256: string): void {
    this.#files = this.#files.map((file) => (file.id === id ? { ...file, sha256 } : file));
  }

  /** Takes a file's records out, every trace of them. */
  remove(id: string): void {
    const gone = this.#files.find((file) => file.id === id);
    if (gone === undefined) return;
    const kept = new Uint32Array(this.rowCount - gone.rowCount);
    for (let row = 0, to = 0; row < this.rowCount; row++) {
      if (row < gone.firstRow || row >= gone.firstRow + gone.rowCount) kept[to++] = row;
    }
    const columns = emptyColumns();
    // Appending translates dictionaries, so that names only the removed file knew are gone too.
    columns.append(this.#columns.take(kept).compacted());
    this.#columns = columns;
    this.#files = this.#files
      .filter((file) => file.id !== id)
      .map((file) =>
        file.firstRow > gone.firstRow ? { ...file, firstRow: file.firstRow - gone.rowCount } : file
      );
  }

  /** The file a row came from. */
  fileOf(row: number): LedgerFile {
    let low = 0;
    let high = this.#files.length - 1;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if ((this.#files[middle]?.firstRow ?? Infinity) <= row) low = middle;
      else high = middle - 1;
    }
    const file = this.#files[low];
    if (file === undefined || row >= this.rowCount)
      throw new RangeError(`row: ${row}, need less than ${this.rowCount}`);
    return file;
  }

  addressOf(row: number): RecordAddress {
    return { sha8: this.fileOf(row).sha256.slice(0, 8), line: this.#columns.number(lineKey).at(row) };
  }

  /** Physical lines the record of a row spans. */
  linesOf(row: number): number {
    const lines = this.#columns.number(linesKey).at(row);
    return Number.isNaN(lines) ? 1 : lines;
  }

  /** The row at an address, -1 where no file in hand has it. */
  rowAt(address: RecordAddress): number {
    const lines = this.#columns.number(lineKey);
    for (const file of this.#files) {
      if (!file.sha256.startsWith(address.sha8)) continue;
      let low = file.firstRow;
      let high = file.firstRow + file.rowCount - 1;
      while (low <= high) {
        const middle = (low + high) >> 1;
        const line = lines.at(middle);
        if (line === address.line) return middle;
        if (line < address.line) low = middle + 1;
        else high = middle - 1;
      }
    }
    return -1;
  }
}
