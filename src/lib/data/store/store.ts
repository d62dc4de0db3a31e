import type { Settings } from '#lib/data/settings/index.ts';

/** A source file as it came, with what was decided about it. */
export interface StoredFile {
  readonly id: string;
  readonly name: string;
  readonly bytes: number;
  readonly sha256: string;
  /** The file itself; null where the person chose to keep no files. */
  readonly source: Blob | null;
  /** Position in the order of import. */
  readonly order: number;
  /** The layout it was read with and its account, as plain data of the intake. */
  readonly layout: unknown;
  readonly account: unknown;
  /** True for files made by the demo. */
  readonly demo: boolean;
}

/** One stored column of a file's records: a cache that can be rebuilt from the source. */
export type StoredColumn =
  | { readonly key: string; readonly kind: 'number'; readonly values: Float64Array }
  | {
      readonly key: string;
      readonly kind: 'code';
      readonly texts: readonly string[];
      readonly codes: Uint32Array;
    }
  | { readonly key: string; readonly kind: 'text'; readonly buffer: Uint8Array; readonly ends: Uint32Array };

/** The columns of one file, marked with the program that wrote them. */
export interface StoredColumns {
  readonly id: string;
  readonly program: string;
  readonly rows: number;
  /** Made one by one as they are taken, so that a copy of all never stands beside the columns in use. */
  readonly columns: Iterable<StoredColumn>;
}

/** What a person wrote about a finding, and whether it is done with. */
export interface FindingNote {
  /** The finding's key. */
  readonly address: string;
  readonly text: string;
  readonly state: 'seen' | 'closed';
  /** When it was written, ms UTC. */
  readonly timeMs: number;
}

/** A choice of the person that is neither a setting nor a record. */
export interface Preferences {
  readonly keepFiles: boolean;
  /** Groupings undone by hand: addresses of the leading ticket. */
  readonly undone: readonly string[];
  /** Set-aside records the person chose to use: their addresses. */
  readonly recovered: readonly string[];
}

export const defaultPreferences: Preferences = { keepFiles: true, undone: [], recovered: [] };

/**
 * How sure it is that what is kept stays kept. The last three keep nothing beyond the window: the browser refuses, what
 * is kept was written by a newer version of the program, or another window does not let go of it.
 */
export type StorageState = 'lasting' | 'mayBeCleared' | 'thisWindowOnly' | 'keptByNewer' | 'heldElsewhere';

/** What the workspace needs of a place to keep things; in the browser IndexedDB, in tests and in private mode memory. */
export interface Store {
  readonly state: () => Promise<StorageState>;
  readonly usedBytes: () => Promise<number | null>;
  readonly files: () => Promise<StoredFile[]>;
  readonly columns: (id: string) => Promise<StoredColumns | null>;
  /** Keeps a file; what was kept of its columns before is forgotten. */
  readonly putFile: (file: StoredFile) => Promise<void>;
  /** Keeps the columns of a file in one step: half of them are never seen. */
  readonly putColumns: (columns: StoredColumns) => Promise<void>;
  readonly removeFile: (id: string) => Promise<void>;
  readonly settings: () => Promise<Settings | null>;
  readonly putSettings: (settings: Settings) => Promise<void>;
  readonly preferences: () => Promise<Preferences | null>;
  readonly putPreferences: (preferences: Preferences) => Promise<void>;
  /** Remembered layouts by header fingerprint, as plain data of the intake. */
  readonly layout: (fingerprint: string) => Promise<unknown>;
  readonly putLayout: (fingerprint: string, layout: unknown) => Promise<void>;
  readonly notes: () => Promise<FindingNote[]>;
  readonly putNote: (note: FindingNote) => Promise<void>;
  readonly removeNote: (address: string) => Promise<void>;
  /** Tells when another window of this site has changed what is kept. */
  readonly watch: (onChange: () => void) => void;
  /** Forgets everything. */
  readonly clear: () => Promise<void>;
}
