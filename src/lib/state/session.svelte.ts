import type { WorkspaceState } from '#lib/data/workspace/index.ts';
import { dropped, WorkerClient } from '#lib/worker/client.ts';
import { startWorker } from '#lib/worker/start.ts';
import type { Argument, CallName, Port, Result } from '#lib/worker/protocol.ts';
import { IntakeMarks } from './intake-marks.ts';

/** What `<main data-state>` says. */
export type SessionPhase = 'empty' | 'asking' | 'reading' | 'ready' | 'failed';

/** The phase of a workspace, by the files in it. */
export function phaseOf(state: WorkspaceState | null): SessionPhase {
  if (state === null) return 'reading';
  const { files } = state;
  if (files.length === 0) return 'empty';
  if (files.some((file) => file.status === 'asking')) return 'asking';
  if (
    files.some(
      (file) => file.status === 'waiting' || file.status === 'inspecting' || file.status === 'reading'
    )
  ) {
    return 'reading';
  }
  return files.every((file) => file.status === 'failed') ? 'failed' : 'ready';
}

/** What is loaded and awaited: the worker's state as it last told it, and calls to change it. */
export class Session {
  readonly #client: WorkerClient;
  #state = $state.raw<WorkspaceState | null>(null);
  #failure = $state.raw<string | null>(null);
  readonly phase = $derived(phaseOf(this.#state));
  /** True while records are still being added: answers are of a part. */
  readonly isFilling = $derived(
    this.#state?.files.some(({ status }) => ['waiting', 'inspecting', 'reading'].includes(status)) ?? false
  );
  readonly intake = new IntakeMarks();

  constructor(port: Port) {
    this.#client = new WorkerClient(port, (state) => {
      this.#state = state;
      this.intake.told(state);
    });
  }

  /** The workspace, null until the worker has opened it. */
  get workspace(): WorkspaceState | null {
    return this.#state;
  }

  /** The last call that failed, in words; null when it has been read. */
  get failure(): string | null {
    return this.#failure;
  }

  dismissFailure(): void {
    this.#failure = null;
  }

  /** Calls the worker; a failure is shown to the person and thrown on. */
  async call<N extends CallName>(call: N, argument: Argument<N>): Promise<Result<N>> {
    if (call === 'addFiles' || call === 'openDemo') this.intake.start();
    try {
      return await this.#client.call(call, argument);
    } catch (error) {
      this.#failure = error instanceof Error ? error.message : String(error);
      throw error;
    }
  }

  /** Lets go what was asked in a slot. */
  withdraw(slot: string): void {
    this.#client.withdraw(slot);
  }

  /** Asks in a slot; null where a newer question took its place. */
  async ask<N extends CallName>(slot: string, call: N, argument: Argument<N>): Promise<Result<N> | null> {
    const answer = await this.#client.ask(slot, call, argument);
    return answer === dropped ? null : answer;
  }
}

/** A session with a worker of its own; once for the whole site. */
export function openSession(): Session {
  return new Session(startWorker());
}
