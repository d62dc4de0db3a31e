import type { WorkspaceState } from '#lib/data/workspace/index.ts';
import { nextTurn } from './turn.ts';
import {
  isIntroduction,
  type Calls,
  type Failure,
  type Introduction,
  type Port,
  type Reply,
  type Request
} from './protocol.ts';

function failureOf(error: unknown): Failure {
  if (error instanceof Error) return { code: error.name, message: error.message };
  return { code: 'unknown', message: String(error) };
}

/** Calls a handler; what its argument must be is what `Calls` says of its name. */
function perform(calls: Calls, { call, argument }: Request): Promise<unknown> {
  return (
    (calls as unknown as Record<string, (argument: unknown) => Promise<unknown>>)[call]?.(argument) ??
    Promise.reject(new TypeError(`call: ${call}, need one of the protocol`))
  );
}

/**
 * Feeds requests from a port to the handlers. Requests wait until the messages at hand have been taken in, so that
 * of several with one slot only the latest is worked on.
 */
export function serve(port: Port, handlers: Promise<Calls>): (state: WorkspaceState) => void {
  const send = (reply: Reply) => port.postMessage(reply);
  const latest = new Map<string, number>();

  async function answer(request: Request): Promise<void> {
    try {
      if (request.slot !== null) {
        await nextTurn();
        if (latest.get(request.slot) !== request.id) {
          send({ id: request.id, kind: 'dropped' });
          return;
        }
      }
      send({ id: request.id, kind: 'result', result: await perform(await handlers, request) });
    } catch (error) {
      send({ id: request.id, kind: 'failure', failure: failureOf(error) });
    }
  }

  port.addEventListener('message', (event: MessageEvent<Request | Introduction>) => {
    if (isIntroduction(event.data)) return;
    const request = event.data;
    if (request.slot !== null) latest.set(request.slot, request.id);
    void answer(request);
  });
  return (state) => send({ id: null, kind: 'state', state });
}
