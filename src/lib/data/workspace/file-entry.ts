import {
  answered,
  layoutFrom,
  type Account,
  type Answer,
  type Inspection,
  type Layout,
  type ReadAhead
} from '#lib/data/intake/index.ts';
import { countsWithAside } from './aside.ts';
import type { FileStatus, FileView } from './state.ts';

/** A file the workspace has in hand, with all that is known of it. */
export interface FileEntry {
  readonly id: string;
  name: string;
  bytes: number;
  readonly order: number;
  readonly demo: boolean;
  source: Blob | null;
  sha256: string | null;
  status: FileStatus;
  bytesDone: number;
  rowsDone: number;
  problem: string | null;
  inspection: Inspection | null;
  /** Values read while the file was looked at, until they are used or given up. */
  ahead: ReadAhead | null;
  answers: Answer[];
  layout: Layout | null;
  account: Account | null;
  remembered: boolean;
  /** Set when a person stops the reading; asked by the readers. */
  stopped: boolean;
}

export function createEntry(
  given: Pick<FileEntry, 'id' | 'name' | 'bytes' | 'order' | 'demo' | 'source'>
): FileEntry {
  return {
    ...given,
    sha256: null,
    status: 'waiting',
    bytesDone: 0,
    rowsDone: 0,
    problem: null,
    inspection: null,
    ahead: null,
    answers: [],
    layout: null,
    account: null,
    remembered: false,
    stopped: false
  };
}

/** Questions of a file that hold it back. */
export function unansweredOf(entry: FileEntry): string[] {
  if (entry.inspection === null) return [];
  const layout = layoutFrom(entry.inspection, entry.answers);
  return 'unanswered' in layout ? [...layout.unanswered] : [];
}

/** True where an answer changed what a column is or how the file is cut, so that its bytes must be gone over again. */
export function needsAnotherLook(entry: FileEntry): boolean {
  if (entry.inspection === null) return false;
  const layout = layoutFrom(entry.inspection, entry.answers);
  return 'unanswered' in layout && layout.inspectAgain;
}

/** What a person is shown while a file waits, and while it is gone over again for an answer; the evidence stays behind. */
function shownInspection(entry: FileEntry): Inspection | null {
  const isShown = entry.status === 'asking' || entry.status === 'inspecting';
  if (!isShown || entry.inspection === null) return null;
  return { ...answered(entry.inspection, entry.answers), basis: null };
}

/** The file as the main thread sees it. */
export function viewOf(entry: FileEntry, aside: number): FileView {
  return {
    id: entry.id,
    name: entry.name,
    bytes: entry.bytes,
    status: entry.status,
    demo: entry.demo,
    sha256: entry.sha256,
    bytesDone: entry.bytesDone,
    rowsDone: entry.rowsDone,
    problem: entry.problem,
    inspection: shownInspection(entry),
    answers: entry.answers,
    unanswered: entry.status === 'asking' ? unansweredOf(entry).length : 0,
    counts: entry.account === null ? null : countsWithAside(entry.account.counts, aside),
    columns: entry.account?.columns ?? [],
    notes: entry.account?.notes ?? [],
    remembered: entry.remembered
  };
}
