import { StudyDropped, type Course, type WorkspaceState } from '#lib/data/workspace/index.ts';
import { nextTurn } from './turn.ts';
import {
  isIntroduction,
  type Calls,
  type Failure,
  type Introduction,
  type Port,
  type Reply,
  type Request,
  type Withdrawal
} from './protocol.ts';

function failureOf(error: unknown): Failure {
  if (error instanceof Error) return { code: error.name, message: error.message };
  return { code: 'unknown', message: String(error) };
}

/** Calls a handler; what its argument must be is what `Calls` says of its name. Only a study heeds the course. */
function perform(calls: Calls, { call, argument }: Request, course: Course): Promise<unknown> {
  return (
    (calls as unknown as Record<string, (argument: unknown, course: Course) => Promise<unknown>>)[call]?.(
      argument,
      course
    ) ?? Promise.reject(new TypeError(`call: ${call}, need one of the protocol`))
  );
}

/**
 * Feeds requests from a port to the handlers. Requests wait until the messages at hand have been taken in, so that
 * of several with one slot only the latest is worked on. A study goes on when no request waits.
 */
export function serve(port: Port, handlers: Promise<Calls>): (state: WorkspaceState) => void {
  const send = (reply: Reply) => port.postMessage(reply);
  const latest = new Map<string, number>();
  /** Requests that were taken in and wait for their turn. */
  let waiting = 0;

  async function rest(): Promise<void> {
    do await nextTurn();
    while (waiting > 0);
  }

  async function takeTurn(): Promise<void> {
    waiting++;
    await nextTurn();
    waiting--;
  }

  async function answer(request: Request): Promise<void> {
    const isDropped = () => request.slot !== null && latest.get(request.slot) !== request.id;
    try {
      if (request.slot !== null) await takeTurn();
      if (isDropped()) throw new StudyDropped('request: a newer one took its place');
      const result = await perform(await handlers, request, { rest, isDropped });
      send({ id: request.id, kind: 'result', result });
    } catch (error) {
      if (error instanceof StudyDropped) send({ id: request.id, kind: 'dropped' });
      else send({ id: request.id, kind: 'failure', failure: failureOf(error) });
    }
  }

  port.addEventListener('message', (event: MessageEvent<Request | Withdrawal | Introduction>) => {
    if (isIntroduction(event.data)) return;
    const request = event.data;
    if (request.slot !== null) latest.set(request.slot, request.id);
    if (request.call !== null) void answer(request);
  });
  return (state) => send({ id: null, kind: 'state', state });
}
