import type { Dictionary } from '#lib/data/columns/index.ts';

/** The marks of a column's numbers, settled by the evidence of the whole column. */
export interface NumberMarks {
  readonly decimal: '.' | ',';
  /** The mark between groups of three digits; null where none is used. */
  readonly group: string | null;
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
  isEmpty(cell: number): boolean;
  wasQuoted(cell: number): boolean;
  /** The text of a cell, quotes undone, blanks kept. */
  text(cell: number): string;
  /** The number in a cell, NaN where it is none (see `isEmpty` for a blank one). */
  number(cell: number, marks: NumberMarks): number;
  /** The cell's text as a code, blanks at both ends left out. */
  code(cell: number, dictionary: Dictionary): number;
}

/** What must be known before records can be told apart. */
export interface Dialect {
  readonly delimiter: string;
  readonly encoding: 'utf-8' | 'utf-16le' | 'utf-16be' | 'windows-1252';
  /** Bytes of the byte order mark, if any. */
  readonly bomBytes: number;
}

/** Faults of form that a tokeniser can see. */
export type FormFaultCode =
  'quoteUnclosed' | 'textAfterQuote' | 'invalidBytes' | 'nulBytes' | 'endsInMidRecord';

export interface FormFault {
  readonly code: FormFaultCode;
  readonly line: number;
}

/** Takes each record in turn; returns false to stop reading. */
export type RecordVisitor = (record: RecordView, fault: FormFault | null) => boolean;

/**
 * Reads a file's bytes record by record. The papaparse adapter and the byte reader answer the same contract, and a
 * property test holds them to the same records, lines and faults.
 */
export interface Tokeniser {
  read(
    source: Blob,
    dialect: Dialect,
    visit: RecordVisitor,
    /** Told how many bytes are behind, now and then; the reader yields to the event loop there. */
    onBytes?: (bytes: number) => Promise<boolean> | boolean
  ): Promise<{ bytes: number; lines: number; faults: readonly FormFault[] }>;
}
