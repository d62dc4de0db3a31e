import type { StudyName, WorkspaceCalls, WorkspaceState } from '#lib/data/workspace/index.ts';

/** What the main thread may ask of the worker: the workspace's own calls, and nothing else. */
export type Calls = WorkspaceCalls;
export type CallName = keyof Calls;
/** Questions that may take seconds and give way to all others. */
export type { StudyName };
export type Argument<N extends CallName> = Parameters<Calls[N]>[0];
export type Result<N extends CallName> = Awaited<ReturnType<Calls[N]>>;

/** What stands in a slot is wanted no more. */
export interface Withdrawal {
  readonly id: number;
  readonly call: null;
  readonly slot: string;
}

/** A request. Of requests with the same `slot` only the latest is answered; the others are dropped. */
export interface Request {
  readonly id: number;
  readonly call: CallName;
  readonly argument: unknown;
  readonly slot: string | null;
}

/** The worker that looks at files while the other one reads them. */
export const lookerName = 'gaugebook-looker';

/** Handed to each of the two workers once: the end of the channel between them. */
export interface Introduction {
  readonly companion: MessagePort;
}

export function isIntroduction(data: unknown): data is Introduction {
  return typeof data === 'object' && data !== null && 'companion' in data;
}

/** An error as plain data: structured clone would keep of an Error only its message. */
export interface Failure {
  readonly code: string;
  readonly message: string;
}

export type Reply =
  | { readonly id: number; readonly kind: 'result'; readonly result: unknown }
  | { readonly id: number; readonly kind: 'failure'; readonly failure: Failure }
  | { readonly id: number; readonly kind: 'dropped' }
  | { readonly id: null; readonly kind: 'state'; readonly state: WorkspaceState };

/** The ends of a message channel that protocol code needs; a Worker, its inside and a MessagePort all fit. */
export interface Port {
  postMessage(message: unknown): void;
  addEventListener(type: 'message', listener: (event: MessageEvent) => void): void;
}
