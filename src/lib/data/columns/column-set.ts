import { CodeColumn } from './code-column.ts';
import { NumberColumn } from './number-column.ts';
import { TextColumn } from './text-column.ts';

export type Column = NumberColumn | CodeColumn | TextColumn;
export type ColumnKind = Column['kind'];

/**
 * Columns of one length under string keys. A column that is asked for late is filled with "missing" for the rows
 * before it; a row is closed by `endRow`, which fills what was not written.
 */
export class ColumnSet {
  readonly #columns = new Map<string, Column>();
  #rows = 0;
  #missing = new Float64Array(0);

  get rowCount(): number {
    return this.#rows;
  }

  get bytes(): number {
    let total = 0;
    for (const column of this.#columns.values()) total += column.bytes;
    return total;
  }

  keys(): string[] {
    return [...this.#columns.keys()];
  }

  get(key: string): Column | undefined {
    return this.#columns.get(key);
  }

  /** The number column under `key`, made if it is not there; throws where the key holds another kind. */
  number(key: string): NumberColumn {
    const column = this.#columns.get(key) ?? this.#add(key, new NumberColumn());
    if (column.kind !== 'number') throw new TypeError(`column ${key}: ${column.kind}, need number`);
    return column;
  }

  code(key: string): CodeColumn {
    const column = this.#columns.get(key) ?? this.#add(key, new CodeColumn());
    if (column.kind !== 'code') throw new TypeError(`column ${key}: ${column.kind}, need code`);
    return column;
  }

  text(key: string): TextColumn {
    const column = this.#columns.get(key) ?? this.#add(key, new TextColumn());
    if (column.kind !== 'text') throw new TypeError(`column ${key}: ${column.kind}, need text`);
    return column;
  }

  /** The values under `key` for reading alone; where nothing was read one array of NaN stands for all such keys. */
  valuesOf(key: string): Float64Array {
    const column = this.#columns.get(key);
    if (column === undefined) return this.#allMissing();
    if (column.kind !== 'number') throw new TypeError(`column ${key}: ${column.kind}, need number`);
    return column.values();
  }

  /** Puts a column in place; its length must be the set's, or the set must be empty. */
  put(key: string, column: Column): void {
    if (this.#columns.size === 0) this.#rows = column.length;
    if (column.length !== this.#rows) {
      throw new RangeError(`column ${key}: ${column.length} rows, need ${this.#rows}`);
    }
    this.#columns.set(key, column);
  }

  /** Closes the row under way: every column is brought to the same length. */
  endRow(): void {
    this.endRows(1);
  }

  /** The same for so many rows that were written together. */
  endRows(count: number): void {
    this.#rows += count;
    for (const column of this.#columns.values()) {
      if (column.length !== this.#rows) column.resize(this.#rows);
    }
  }

  /** Drops what was written of a row that is not to be kept. */
  abandonRow(): void {
    for (const column of this.#columns.values()) {
      if (column.length !== this.#rows) column.resize(this.#rows);
    }
  }

  /** Makes room for so many rows in all, so that adding them copies nothing. */
  reserve(rows: number): void {
    for (const column of this.#columns.values()) column.reserve(rows);
  }

  /**
   * Adds all rows of another set; keys missing on either side are filled with "missing". While this set has no rows
   * the other's columns are taken, not copied: nothing may be written through the other any more.
   */
  append(other: ColumnSet): void {
    for (const key of other.keys()) {
      const column = other.get(key);
      if (column !== undefined && this.#rows === 0 && this.#takes(key, column))
        this.#columns.set(key, column);
      else if (column?.kind === 'number') this.number(key).append(column);
      else if (column?.kind === 'code') this.code(key).append(column);
      else if (column?.kind === 'text') this.text(key).append(column);
    }
    this.#rows += other.rowCount;
    for (const column of this.#columns.values()) {
      if (column.length !== this.#rows) column.resize(this.#rows);
    }
  }

  /** True where a column can stand for the empty one under `key`, its codes meaning the same. */
  #takes(key: string, column: Column): boolean {
    const own = this.#columns.get(key);
    if (own === undefined) return true;
    if (own.kind !== column.kind) return false;
    if (own.kind !== 'code' || column.kind !== 'code') return true;
    const texts = column.dictionary.texts();
    return own.dictionary.texts().every((text, code) => texts[code] === text);
  }

  /** A new set with the rows named, in that order. */
  take(rows: Uint32Array): ColumnSet {
    const taken = new ColumnSet();
    taken.#rows = rows.length;
    for (const [key, column] of this.#columns) taken.#columns.set(key, column.take(rows));
    return taken;
  }

  /** A new set whose dictionaries know only the texts that stand in a row. */
  compacted(): ColumnSet {
    const compact = new ColumnSet();
    compact.#rows = this.#rows;
    for (const [key, column] of this.#columns) {
      compact.#columns.set(key, column.kind === 'code' ? column.compacted() : column);
    }
    return compact;
  }

  #allMissing(): Float64Array {
    if (this.#missing.length !== this.#rows) this.#missing = new Float64Array(this.#rows).fill(NaN);
    return this.#missing;
  }

  #add<C extends Column>(key: string, column: C): C {
    column.resize(this.#rows);
    this.#columns.set(key, column);
    return column;
  }
}
