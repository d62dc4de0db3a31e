import type { Fate, ReasonCode } from '#lib/data/words/index.ts';
import type { AskedQuestion, EncodingFinding, Note, ColumnFinding } from './layout.ts';

/** A record that is not used: where it stands, why, and which cell says so. */
export interface RecordFate {
  readonly line: number;
  readonly fate: Exclude<Fate, 'used'>;
  readonly code: ReasonCode;
  readonly column: number | null;
  readonly value: string | null;
  readonly words: string;
}

export interface FateCounts {
  lines: number;
  records: number;
  header: number;
  used: number;
  setAside: number;
  refused: number;
  skipped: number;
}

export type AccountColumn = Omit<ColumnFinding, 'samples' | 'proof'>;

/** The account of a file: what became of every record of it. `records` = header + used + setAside + refused + skipped. */
export interface Account {
  readonly format: 'account/1';
  readonly program: string;
  readonly file: { readonly name: string; readonly bytes: number; readonly sha256: string | null };
  readonly encoding: EncodingFinding;
  readonly delimiter: string;
  readonly decimalMark: string | null;
  readonly groupMark: string | null;
  readonly lineEnds: string;
  readonly headerLine: number | null;
  readonly columns: readonly AccountColumn[];
  readonly questions: readonly AskedQuestion[];
  readonly counts: Readonly<FateCounts>;
  readonly records: readonly RecordFate[];
  readonly notes: readonly Note[];
}
