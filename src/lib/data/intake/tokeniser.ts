import type { Dictionary, TextColumn } from '#lib/data/columns/index.ts';

/** The marks of a column's numbers, settled by the evidence of the whole column. */
export interface NumberMarks {
  readonly decimal: '.' | ',';
  /** The mark between groups of three digits; null where none is used. */
  readonly group: string | null;
  /**
   * Numbers as a program writes them, for files this program exported: any count of digits, and `1.5e-7`. Left out,
   * such a cell is no number.
   */
  readonly machine?: boolean;
}

/**
 * One record of a file, as a view that is reused: what it says holds until the tokeniser goes on. Cells are counted
 * from 0; a cell past the end is empty.
 */
export interface RecordView {
  readonly cellCount: number;
  /** Physical line the record starts on, from 1. */
  readonly line: number;
  /** Physical lines the record spans. */
  readonly lines: number;
  /** First byte of the record in the file, and the byte after its line end; only where the reader works on bytes. */
  readonly byteStart?: number;
  readonly byteEnd?: number;
  /** True where the cell holds nothing but blanks. */
  isEmpty(cell: number): boolean;
  wasQuoted(cell: number): boolean;
  /** The text of a cell: quotes undone, blanks kept, each line end in it as one LF. */
  text(cell: number): string;
  /** The number in a cell, NaN where it is none (see `isEmpty` for a blank one). */
  number(cell: number, marks: NumberMarks): number;
  /** The cell's text as a code, blanks at both ends left out. */
  code(cell: number, dictionary: Dictionary): number;
}

/**
 * How a cell reads as a number, asked by column. `digits`: a number that every decimal mark reads alike; `marked`: one
 * in the decimal mark asked for; `other`: the cell has to be looked at by itself, and may be a number all the same.
 */
export const cellLook = { empty: 0, digits: 1, marked: 2, other: 3 } as const;

/**
 * Consecutive records without a fault, of the same count of cells and one line each, asked by column: a loop over one
 * column costs a fraction of asking each record in turn. It says the same as the records' own views, and like them
 * holds until the tokeniser goes on.
 */
export interface RecordBlock {
  readonly count: number;
  readonly cellCount: number;
  /** Physical line of the first record, from 1. */
  readonly line: number;
  /** The view of one record, reused from call to call. */
  record(index: number): RecordView;
  /** Whether each cell holds nothing but blanks: 1 or 0. */
  empties(cell: number, into: Uint8Array): void;
  /** The first byte of each cell, 0 where it has none. */
  initials(cell: number, into: Uint8Array): void;
  /** The looks of the cells, and the values of those that are `digits` or `marked`; others are NaN. */
  numbers(cell: number, decimal: '.' | ',', values: Float64Array, looks: Uint8Array): void;
  /** Instants written as `2024-03-04T10:00[:00][Z]`, in ms UTC with the Z and in ms of the bare clock without; else NaN. */
  instants(cell: number, values: Float64Array, isUtc: Uint8Array): void;
  /** Codes as the record views give them, but of records that `except` marks. */
  codes(cell: number, dictionary: Dictionary, codes: Uint32Array, except: Uint8Array | null): void;
  /** Adds the texts of records [from, to), blanks at both ends left out. */
  texts(cell: number, from: number, to: number, into: TextColumn): void;
}

/** Most records of a block. */
export const longestBlock = 512;

/** Takes each block in turn; returns how many of its records it took: fewer than all to stop reading after those. */
export type BlockVisitor = (block: RecordBlock) => number;

/** What must be known before records can be told apart. */
export interface Dialect {
  /** One ASCII character. */
  readonly delimiter: string;
  readonly encoding: 'utf-8' | 'utf-16le' | 'utf-16be' | 'windows-1252';
  /** Bytes of the byte order mark, if any. */
  readonly bomBytes: number;
  /** The header's cell count, where known; else the count that most records so far have stands for it. */
  readonly cells?: number;
}

/**
 * Faults of form that a tokeniser can see, the gravest first. `recordTooLong`: no record end within a million
 * characters. `invalidBytes`: bytes that are no text in the encoding, or the replacement character itself.
 * `controlBytes`: control characters other than tab and line ends, NUL apart.
 */
export type FormFaultCode =
  | 'recordTooLong'
  | 'quoteUnclosed'
  | 'textAfterQuote'
  | 'endsInMidRecord'
  | 'invalidBytes'
  | 'nulBytes'
  | 'controlBytes';

export interface FormFault {
  readonly code: FormFaultCode;
  readonly line: number;
}

/** Takes each record in turn, with the gravest of its faults; returns false to stop reading. */
export type RecordVisitor = (record: RecordView, fault: FormFault | null) => boolean;

export interface TokeniserReport {
  /** Bytes read, the byte order mark included. */
  readonly bytes: number;
  /** Physical lines read: line ends, and one more where the last line has none. */
  readonly lines: number;
  /** All faults of the file in the order of its records, the first 1,000 of them. */
  readonly faults: readonly FormFault[];
}

/** What a reading tells along the way, each left out where it is not wanted. */
export interface Along {
  /** Told how many bytes are behind, now and then, and awaited there; false stops reading. */
  readonly onBytes?: (bytes: number) => Promise<boolean> | boolean;
  /** Takes records in blocks where the reader can give them so; the others go to the visitor, all in their order. */
  readonly visitBlock?: BlockVisitor;
  /**
   * Sees the bytes as they are fetched, `at` the first of them in the file. No byte is left out; some come again where
   * one reader hands over to the other.
   */
  readonly onFetched?: (bytes: Uint8Array, at: number) => void;
}

/**
 * Reads a file's bytes record by record. Blank lines are records of one empty cell; LF, CRLF and a lone CR each end a
 * line. The papaparse adapter and the byte reader answer the same contract, and a property test holds them to the
 * same records, lines and faults.
 */
export interface Tokeniser {
  read(source: Blob, dialect: Dialect, visit: RecordVisitor, along?: Along): Promise<TokeniserReport>;
}
