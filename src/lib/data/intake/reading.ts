import { ColumnSet, NumberColumn } from '#lib/data/columns/index.ts';
import { noteWords, type ReasonCode } from '#lib/data/words/index.ts';
import { accountOf } from './account-of.ts';
import type { Account } from './account.ts';
import type { Layout, Note } from './layout.ts';
import { CellCounts } from './read/cell-counts.ts';
import type { CellReader } from './read/cell-reader.ts';
import { NeededFields } from './read/needed-fields.ts';
import { makeReaders } from './read/readers.ts';
import { FateList } from './read/record-fates.ts';
import {
  isBlank,
  isFormOnly,
  isLineOfText,
  namesTotal,
  repeats,
  widthOf,
  type TableShape
} from './read/shape.ts';
import { TableWatch } from './read/table-watch.ts';
import { RunningTotals } from './read/totals.ts';
import type { Source } from './source.ts';
import { longestBlock, type FormFault, type RecordBlock, type RecordView } from './tokeniser.ts';

const defaultBatchRows = 50_000;

const extraCellsNote: Note = { code: 'extraEmptyCells', line: null, words: noteWords.extraEmptyCells };

/** Takes the records of one file, from its first to its last, and makes columns and an account of them. */
export class Reading {
  readonly #layout: Layout;
  readonly #roomRows: number;
  readonly #onBatch: (batch: ColumnSet) => void;
  readonly #batchRows: number;
  readonly #all: readonly CellReader[];
  readonly #shape: TableShape;
  readonly #watch: TableWatch;
  readonly #totals: RunningTotals;
  readonly #needed: NeededFields;
  readonly #fates = new FateList();
  readonly #headerLine: number;
  readonly #cells = new CellCounts();
  #hasExtraCells = false;
  #isUnitsRowDue: boolean;
  #isContradicted = false;
  /** Records of the block at hand that are not simply used. */
  readonly #odd = new Uint8Array(longestBlock);
  #set = new ColumnSet();
  #lineColumn = new NumberColumn();
  #linesColumn = new NumberColumn();
  #failedCell: number | null = null;
  #readReason: ReasonCode = 'badNumber';

  /** Hands over columns of `batchRows` rows each, for which there is room at once if so many are expected. */
  constructor(
    layout: Layout,
    expectedRows: number,
    onBatch: (batch: ColumnSet) => void,
    batchRows = defaultBatchRows
  ) {
    this.#layout = layout;
    this.#roomRows = Math.min(batchRows, expectedRows);
    this.#onBatch = onBatch;
    this.#batchRows = batchRows;
    const readers = makeReaders(layout);
    this.#all = readers.all;
    this.#shape = layout;
    this.#watch = new TableWatch(layout);
    this.#totals = new RunningTotals(readers.numbers);
    this.#needed = new NeededFields(readers);
    this.#headerLine = layout.headerLine ?? 0;
    this.#isUnitsRowDue = layout.unitsRow !== null;
    this.#startBatch();
  }

  /** True once a record was met that fits only another reading than the one remembered. */
  get isContradicted(): boolean {
    return this.#isContradicted;
  }

  /** Ends the file after so many physical lines. */
  end(lines: number): void {
    this.#fates.counts.lines = lines;
    if (!this.#isContradicted && this.#set.rowCount > 0) this.#handOver();
  }

  /** The account of all records taken, with what `layout` says of the file: one that reads alike. */
  account(source: Source, layout: Layout): Account {
    const notes = this.#hasExtraCells ? [extraCellsNote] : [];
    return accountOf(source, layout, this.#fates, this.#cells, notes);
  }

  /**
   * Reads a block column by column and takes over what can be used as it is; each other record is looked at by itself,
   * in its turn. Gives how many records were taken.
   */
  visitBlock(block: RecordBlock): number {
    const odd = this.#odd;
    if (this.#isTableUnderWay(block)) this.#readBlock(block, odd);
    else odd.fill(1, 0, block.count);
    let from = 0;
    for (let i = 0; i < block.count; i++) {
      if (odd[i] === 0) continue;
      this.#useBlock(block, from, i);
      from = i + 1;
      if (!this.visit(block.record(i), null)) return from;
      if (!this.#isTableUnderWay(block)) odd.fill(1, from, block.count);
    }
    this.#useBlock(block, from, block.count);
    return block.count;
  }

  /** True where the records of a block are data of this table, as far as can be told without looking at them. */
  #isTableUnderWay(block: RecordBlock): boolean {
    const isInHead = block.line <= this.#headerLine || this.#isUnitsRowDue;
    return !isInHead && !this.#watch.isElsewhere && block.cellCount === this.#shape.width;
  }

  #readBlock(block: RecordBlock, odd: Uint8Array): void {
    odd.fill(0, 0, block.count);
    for (const reader of this.#all) reader.readBlock(block, odd);
    this.#needed.markBlock(block.count, odd);
  }

  /** Takes over records [from, to) of a block as they were read. */
  #useBlock(block: RecordBlock, from: number, to: number): void {
    let start = from;
    while (start < to) {
      const end = Math.min(to, start + this.#batchRows - this.#set.rowCount);
      for (const reader of this.#all) reader.pushBlock(block, start, end);
      for (let i = start; i < end; i++) {
        this.#lineColumn.push(block.line + i);
        this.#linesColumn.push(1);
      }
      this.#set.endRows(end - start);
      this.#totals.addBlock(start, end);
      this.#fates.addUsed(end - start);
      if (this.#set.rowCount >= this.#batchRows) this.#endBatch();
      start = end;
    }
  }

  /** Takes one record; false where it stops the file. */
  visit(record: RecordView, fault: FormFault | null): boolean {
    const reason = this.#reasonAgainst(record, fault);
    if (reason === null) {
      this.#lineColumn.push(record.line);
      this.#linesColumn.push(record.lines);
      this.#set.endRow();
      this.#totals.add();
      this.#fates.addUsed();
      if (this.#set.rowCount >= this.#batchRows) this.#endBatch();
      return true;
    }
    this.#set.abandonRow();
    return this.#refuse(record, reason);
  }

  /** Null where the record is good and has been written to the columns of the row under way. */
  #reasonAgainst(record: RecordView, fault: FormFault | null): ReasonCode | null {
    this.#failedCell = null;
    if (record.line <= this.#headerLine) return this.#reasonInHead(record);
    if (fault !== null) return this.#reasonOfFault(record, fault);
    if (this.#watch.isElsewhere) return this.#reasonOfForm(record) ?? 'otherTable';
    const width = widthOf(record, this.#shape);
    if (width === 'extraEmptyCells') this.#hasExtraCells = true;
    else if (width !== 'fits') return this.#reasonOfForm(record) ?? width;
    if (this.#isUnitsRowDue) return this.#unitsRowReason(record);
    if (this.#readCells(record)) return this.#missing(record);
    return this.#reasonOfForm(record) ?? this.#reasonOfCell(record);
  }

  #reasonOfFault(record: RecordView, fault: FormFault): ReasonCode {
    if (isBlank(record)) return 'blank';
    return isFormOnly(fault) && isLineOfText(record, this.#shape) ? 'footer' : fault.code;
  }

  /** Why a record with an unreadable cell is not used; in a total, what should be the time is the word for it. */
  #reasonOfCell(record: RecordView): ReasonCode {
    const mayBeTotal = this.#needed.lacksIdentity(record, this.#failedCell);
    const total = mayBeTotal ? this.#totalReason(record) : null;
    if (total !== null) this.#failedCell = null;
    return total ?? this.#readReason;
  }

  #readCells(record: RecordView): boolean {
    const readers = this.#all;
    for (let i = 0; i < readers.length; i++) {
      const reader = readers[i];
      if (reader !== undefined && !reader.read(record)) {
        this.#readReason = reader.reason;
        this.#failedCell = reader.failedCell;
        return false;
      }
    }
    return true;
  }

  #reasonInHead(record: RecordView): ReasonCode {
    if (record.line === this.#headerLine) return 'header';
    return isBlank(record) ? 'blank' : 'preamble';
  }

  /** The row of units has to be the one the layout was settled by: other units would be another layout. */
  #unitsRowReason(record: RecordView): ReasonCode {
    if (isBlank(record)) return 'blank';
    this.#isUnitsRowDue = false;
    if (repeats(record, this.#layout.unitsRow ?? [])) return 'unitsRow';
    this.#isContradicted = true;
    return 'otherReading';
  }

  /** What a record that cannot be read is by its form: blank, the header again, a total. */
  #reasonOfForm(record: RecordView): ReasonCode | null {
    const reason = this.#formOf(record);
    if (reason !== null) this.#failedCell = null;
    return reason;
  }

  #formOf(record: RecordView): ReasonCode | null {
    if (isBlank(record)) return 'blank';
    if (isLineOfText(record, this.#shape)) return 'footer';
    if (this.#layout.unitsRow !== null && repeats(record, this.#layout.unitsRow)) return 'unitsRow';
    return this.#watch.look(record);
  }

  /** The needed field that a record does not have, null where it has all. */
  #missing(record: RecordView): ReasonCode | null {
    const identity = this.#needed.missingIdentity();
    if (identity === null && this.#isDressedTotal(record)) return 'totals';
    if (identity === null) return this.#needed.otherFault();
    return this.#reasonOfForm(record) ?? this.#totalReason(record) ?? identity;
  }

  /** A total may be drawn with all that a record needs: its figure, the sum of several, says that it is one. */
  #isDressedTotal(record: RecordView): boolean {
    return this.#totals.records > 1 && this.#needed.namesTotal(record) && this.#totals.matches(record);
  }

  #totalReason(record: RecordView): ReasonCode | null {
    if (!namesTotal(record)) return null;
    return this.#totals.matches(record) ? 'totals' : 'totalDoesNotAddUp';
  }

  /** Lists a record that is not used; false where it stops the file. */
  #refuse(record: RecordView, reason: ReasonCode): boolean {
    const cell = this.#failedCell;
    const header = cell === null ? null : (this.#layout.headers[cell] ?? null);
    this.#fates.add(record.line, reason, cell, header, cell === null ? null : record.text(cell));
    if (cell !== null) this.#cells.addRefusal(cell);
    const isOther = reason === 'otherReading' || reason === 'invalidBytes';
    if (isOther && !this.#layout.checked) this.#isContradicted = true;
    if (isDataReason(reason)) this.#totals.addFrom(record);
    return !this.#isContradicted;
  }

  #startBatch(): void {
    this.#set = new ColumnSet();
    for (const reader of this.#all) reader.bind(this.#set, this.#roomRows);
    this.#lineColumn = this.#set.number('#line');
    this.#linesColumn = this.#set.number('#lines');
  }

  #endBatch(): void {
    this.#handOver();
    this.#startBatch();
  }

  #handOver(): void {
    this.#cells.addBatch(this.#set);
    this.#onBatch(this.#set);
  }
}

/** Reasons of records that are data, and so count in a total drawn below them. */
function isDataReason(reason: ReasonCode): boolean {
  return ![
    'header',
    'blank',
    'preamble',
    'repeatedHeader',
    'unitsRow',
    'totals',
    'totalDoesNotAddUp',
    'footer',
    'otherTable'
  ].includes(reason);
}
