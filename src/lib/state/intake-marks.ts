import type { FileView, WorkspaceState } from '#lib/data/workspace/index.ts';

/** True where a file's records are all in the answers, or none of them will be. */
function isRead(file: FileView): boolean {
  return file.counts !== null || file.status === 'failed' || file.status === 'duplicate';
}

function isDone(file: FileView): boolean {
  return isRead(file) && (file.status !== 'used' || file.sha256 !== null) && file.status !== 'reading';
}

/**
 * The performance marks of an import after its start: `intake:partial-answer` and `intake:first-answer` when answers
 * on the page first rest on some and on all records of what was handed over, `intake:done` when its files are hashed
 * and kept.
 */
export class IntakeMarks {
  #isPartialAwaited = false;
  #isAnswerAwaited = false;
  #isEndAwaited = false;
  #state: WorkspaceState | null = null;

  /** Files were handed over. */
  start(): void {
    this.#isPartialAwaited = true;
    this.#isAnswerAwaited = true;
    this.#isEndAwaited = true;
  }

  /** The worker told its state. */
  told(state: WorkspaceState): void {
    this.#state = state;
    if (!this.#isEndAwaited || state.files.length === 0 || !state.files.every(isDone)) return;
    this.#isEndAwaited = false;
    performance.mark('intake:done');
  }

  /** The answers at hand are on the page. */
  shown(): void {
    const state = this.#state;
    if (state === null || !this.#isAnswerAwaited || state.recordsUsed === 0) return;
    if (this.#isPartialAwaited) performance.mark('intake:partial-answer');
    this.#isPartialAwaited = false;
    if (!state.files.every(isRead)) return;
    this.#isAnswerAwaited = false;
    performance.mark('intake:first-answer');
  }
}
