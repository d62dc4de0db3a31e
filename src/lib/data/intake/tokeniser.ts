import type { Dictionary } from '#lib/data/columns/index.ts';

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

/**
 * Reads a file's bytes record by record. Blank lines are records of one empty cell; LF, CRLF and a lone CR each end a
 * line. The papaparse adapter and the byte reader answer the same contract, and a property test holds them to the
 * same records, lines and faults.
 */
export interface Tokeniser {
  read(
    source: Blob,
    dialect: Dialect,
    visit: RecordVisitor,
    /** Told how many bytes are behind, now and then, and awaited there; false stops reading. */
    onBytes?: (bytes: number) => Promise<boolean> | boolean
  ): Promise<TokeniserReport>;
}
