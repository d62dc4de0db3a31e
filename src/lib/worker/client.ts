import type { WorkspaceState } from '#lib/data/workspace/index.ts';
import type { Argument, CallName, Port, Reply, Request, Result, Withdrawal } from './protocol.ts';

/** The worker said no: `code` tells what kind of failure, the message is for a person. */
export class WorkerFailure extends Error {
  override readonly name = 'WorkerFailure';
  readonly code: string;
  constructor(code: string, message: string) {
    super(message);
    this.code = code;
  }
}

/** An answer that came too late: a newer question of the same slot took its place. */
export const dropped = Symbol('dropped');

interface Waiting {
  readonly resolve: (result: unknown) => void;
  readonly reject: (error: Error) => void;
}

/** Calls the worker as promises. */
export class WorkerClient {
  readonly #port: Port;
  readonly #waiting = new Map<number, Waiting>();
  #nextId = 1;

  constructor(port: Port, onState: (state: WorkspaceState) => void) {
    this.#port = port;
    port.addEventListener('message', (event: MessageEvent<Reply>) => this.#receive(event.data, onState));
  }

  call<N extends CallName>(call: N, argument: Argument<N>): Promise<Result<N>> {
    return this.#send(call, argument, null) as Promise<Result<N>>;
  }

  /** Like `call`, but a later question in the same slot drops this one: the answer is then `dropped`. */
  ask<N extends CallName>(slot: string, call: N, argument: Argument<N>): Promise<Result<N> | typeof dropped> {
    return this.#send(call, argument, slot) as Promise<Result<N> | typeof dropped>;
  }

  /** Lets go what was asked in a slot: its answer is then `dropped`, and a study is worked on no more. */
  withdraw(slot: string): void {
    const withdrawal: Withdrawal = { id: this.#nextId++, call: null, slot };
    this.#port.postMessage(withdrawal);
  }

  #send(call: CallName, argument: unknown, slot: string | null): Promise<unknown> {
    const id = this.#nextId++;
    const request: Request = { id, call, argument, slot };
    return new Promise((resolve, reject) => {
      this.#waiting.set(id, { resolve, reject });
      this.#port.postMessage(request);
    });
  }

  #receive(reply: Reply, onState: (state: WorkspaceState) => void): void {
    if (reply.kind === 'state') {
      onState(reply.state);
      return;
    }
    const waiting = this.#waiting.get(reply.id);
    this.#waiting.delete(reply.id);
    if (reply.kind === 'result') waiting?.resolve(reply.result);
    else if (reply.kind === 'dropped') waiting?.resolve(dropped);
    else waiting?.reject(new WorkerFailure(reply.failure.code, reply.failure.message));
  }
}
