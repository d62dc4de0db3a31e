import type { AccountColumn, Answer, FateCounts, Inspection, Note } from '#lib/data/intake/index.ts';
import type { LookAlikes } from './look-alikes.ts';
import type { Settings } from '#lib/data/settings/index.ts';
import type { FindingNote, Preferences, StorageState } from '#lib/data/store/index.ts';

/**
 * Where a file is: waiting its turn, being looked at, waiting for a person, being read, in use; or out of use because
 * it failed or is the same as another.
 */
export type FileStatus = 'waiting' | 'inspecting' | 'asking' | 'reading' | 'used' | 'failed' | 'duplicate';

/** A file as the main thread sees it: small, plain and complete for the page of source files. */
export interface FileView {
  readonly id: string;
  readonly name: string;
  readonly bytes: number;
  readonly status: FileStatus;
  readonly demo: boolean;
  readonly sha256: string | null;
  readonly bytesDone: number;
  readonly rowsDone: number;
  /** Why it failed, or which file it is the same as, in words. */
  readonly problem: string | null;
  readonly inspection: Inspection | null;
  readonly answers: readonly Answer[];
  /** Questions without an answer. */
  readonly unanswered: number;
  readonly counts: Readonly<FateCounts> | null;
  readonly columns: readonly AccountColumn[];
  readonly notes: readonly Note[];
  /** True where it was read with a layout remembered from an earlier file. */
  readonly remembered: boolean;
}

/** The whole workspace in small: what the main thread knows without asking. */
export interface WorkspaceState {
  /** Rises whenever records, masses or verdicts changed: answers of an older version are stale. */
  readonly version: number;
  readonly files: readonly FileView[];
  /** Spellings that look alike, offered to the person. */
  readonly lookAlikes: readonly LookAlikes[];
  readonly recordsUsed: number;
  readonly recordsRead: number;
  readonly settings: Settings;
  readonly preferences: Preferences;
  readonly notes: readonly FindingNote[];
  readonly storage: {
    readonly state: StorageState;
    readonly usedBytes: number | null;
    /** True where the browser once refused to keep or to find something. */
    readonly hasFault: boolean;
    /** True where another window has changed what is kept since this one took it up. */
    readonly changedElsewhere: boolean;
  };
  /** Fingerprint of files, layouts and undone groupings; null while a hash is still missing. */
  readonly dataFingerprint: string | null;
  /** Fingerprint of the data, the settings and the method. */
  readonly resultFingerprint: string | null;
  readonly program: string;
  /** The seed the demo is made from. */
  readonly demoSeed: number;
}
