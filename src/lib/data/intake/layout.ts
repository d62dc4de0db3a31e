import type { UnitCode } from '#lib/core/units/index.ts';
import type { ColumnKey } from '#lib/data/record/index.ts';
import type { NoteCode } from '#lib/data/words/index.ts';
import type { Answer } from './question.ts';
import type { DateOrder, SerialSystem } from './times/index.ts';
import type { Dialect, NumberMarks } from './tokeniser.ts';

interface ReadingBase {
  readonly column: number;
  readonly key: ColumnKey;
}

/** How a column of numbers is read. */
export interface NumberReading extends ReadingBase {
  readonly kind: 'number';
  readonly marks: NumberMarks;
  /** False where no cell of the file that settled the layout had a mark: a mark met later is a new question. */
  readonly proven: boolean;
  /** The unit of cells that name none; null where each has to name its own. */
  readonly unit: UnitCode | null;
  /** True where only the size of the values said the unit: a value of another size is then another reading. */
  readonly unitBySize: boolean;
  readonly unitColumn: number | null;
  /** Unit words of this file that mean one of several units, as answered. */
  readonly unitWords: readonly (readonly [string, UnitCode])[];
  /** True where 0 stands in every cell and can be no reading: it is then read as missing. */
  readonly zeroIsMissing: boolean;
  /** -1 where the source counts the other way round. */
  readonly sign: 1 | -1;
}

/**
 * Whose clock a time without an offset follows: UTC, each station's, or one zone for all. `unasked`: the file that
 * settled the layout had no such time, so one that is met later is a new question.
 */
export type ZoneRule = 'utc' | 'station' | 'unasked' | `zone:${string}`;

export interface TimeReading extends ReadingBase {
  readonly kind: 'time';
  /** Column with the time of day, where date and clock stand apart. */
  readonly clockColumn: number | null;
  readonly order: DateOrder | null;
  readonly proven: boolean;
  readonly serial: SerialSystem | null;
  readonly zone: ZoneRule;
  readonly doubled: 'refuse' | 'earlier' | 'later';
  /** What a date without a clock is where others of the column have one; `midnight` where none has. */
  readonly bareDate: 'refuse' | 'midnight';
  /** True where some dates with the year first exist only with the day before the month: then others may be meant so. */
  readonly yearFirstOpen: boolean;
}

export interface NameReading extends ReadingBase {
  readonly kind: 'name' | 'text';
}

/** How the words of a check or choice column are read. */
export interface StateReading extends ReadingBase {
  readonly kind: 'check' | 'choice';
  /** State by folded word. */
  readonly words: readonly (readonly [string, string])[];
  /** Above this many ppm a check given as a number has failed; null where numbers are not read. */
  readonly ppmLimit: number | null;
}

/** A mass that the source gives in a unit it cannot be read in: only blanks and zeros leave the record usable. */
export interface MisfitReading extends ReadingBase {
  readonly kind: 'misfit';
}

export type ColumnReading = NumberReading | TimeReading | NameReading | StateReading | MisfitReading;

/** Where a unit comes from. */
export type UnitSource = 'header' | 'column' | 'cell' | 'size' | 'answer';

/** What the account and the import screen say about one column. */
export interface ColumnFinding {
  readonly index: number;
  readonly header: string;
  readonly field: ColumnKey | null;
  readonly part: 'whole' | 'date' | 'clock' | 'unit' | null;
  readonly unit: UnitCode | null;
  readonly unitFrom: UnitSource | null;
  /** Why it is this field: a header word, part of one, the column's content, an answer, an export of this program. */
  readonly how: 'header' | 'likeHeader' | 'content' | 'answer' | 'export' | null;
  readonly agree: number;
  readonly disagree: number;
  readonly samples: readonly { readonly line: number; readonly text: string; readonly reading: string }[];
  /** A cell that can be read in no other way and so settled how all are read; `reading` says which way. */
  readonly proof: { readonly line: number; readonly text: string; readonly reading: string } | null;
}

export interface Note {
  readonly code: NoteCode;
  readonly line: number | null;
  readonly words: string;
}

/** How the encoding of a file was decided. */
export interface EncodingFinding {
  readonly name: string;
  readonly how: string;
  readonly bom: boolean;
}

/** A question as the account keeps it. */
export interface AskedQuestion {
  readonly id: string;
  readonly column: number | null;
  readonly readings: readonly string[];
  readonly answer: string | null;
}

/** All that is needed to read the values of a file, and what its account says about it. Plain data, fit for JSON. */
export interface Layout {
  readonly format: 'layout/1';
  readonly fingerprint: string;
  readonly dialect: Dialect;
  readonly encoding: EncodingFinding;
  readonly lineEnds: string;
  readonly headerLine: number | null;
  readonly headers: readonly string[];
  /** Cells that a record has to have. */
  readonly width: number;
  /** Texts of the row of units below the header, null without one. */
  readonly unitsRow: readonly string[] | null;
  readonly ownExport: boolean;
  readonly columns: readonly ColumnReading[];
  /** Values that hold for every record, by column key. */
  readonly constants: readonly (readonly [ColumnKey, string])[];
  /** Time zones of stations, as the register had them. */
  readonly stationZones: readonly (readonly [string, string])[];
  /** True where the evidence of this very file settled the layout, false where another file's did. */
  readonly checked: boolean;
  readonly findings: readonly ColumnFinding[];
  readonly questions: readonly AskedQuestion[];
  readonly notes: readonly Note[];
}

/** A reading kept for the next file with the same header. */
export interface RememberedLayout {
  readonly fingerprint: string;
  readonly layout: Layout;
  readonly answers: readonly Answer[];
}
