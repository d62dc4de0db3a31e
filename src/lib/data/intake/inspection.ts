import type { ProblemCode } from '#lib/data/words/index.ts';
import type { FateCounts } from './account.ts';
import type { FileEvidence } from './evidence/file-evidence.ts';
import type { ColumnFinding, EncodingFinding, Note, RememberedLayout } from './layout.ts';
import type { Question } from './question.ts';
import type { Dialect } from './tokeniser.ts';

/** A record as it was read, before anything is made of its cells. */
export interface ShownRecord {
  readonly line: number;
  readonly cells: readonly string[];
}

/** What is the same for every set of answers. */
export interface FileBasis {
  readonly dialect: Dialect;
  readonly encoding: EncodingFinding;
  /** The first three words with characters beyond ASCII. */
  readonly firstWords: readonly string[];
  readonly lineEnds: string;
  readonly headerLine: number | null;
  readonly headers: readonly string[];
  /** Cells that a record has to have. */
  readonly width: number;
  readonly unitsRow: readonly string[] | null;
  readonly fingerprint: string;
  readonly ownExport: boolean;
  readonly evidence: FileEvidence;
  /** Delimiters that fit about as well as the one taken. */
  readonly otherDelimiters: readonly string[];
  readonly notes: readonly Note[];
  readonly stationZones: readonly (readonly [string, string])[];
}

/** What the site shows of a file before anything of it is counted. Plain data. */
export interface Inspection {
  readonly file: { readonly name: string; readonly bytes: number };
  /** Why the file cannot be read at all, null where it can. */
  readonly problem: ProblemCode | null;
  readonly encoding: EncodingFinding;
  readonly firstWords: readonly string[];
  readonly delimiter: string;
  readonly lineEnds: string;
  readonly headerLine: number | null;
  readonly headers: readonly string[];
  readonly fingerprint: string;
  /** The remembered layout, fitted to this file, where one was found; then nothing else was looked at. */
  readonly remembered: RememberedLayout | null;
  readonly columns: readonly ColumnFinding[];
  readonly questions: readonly Question[];
  readonly notes: readonly Note[];
  readonly first: readonly ShownRecord[];
  readonly last: readonly ShownRecord[];
  /** Fates as far as they can be told before the values are read. */
  readonly foreseen: Readonly<FateCounts>;
  /** Null where there is a problem or a remembered layout. */
  readonly basis: FileBasis | null;
}
