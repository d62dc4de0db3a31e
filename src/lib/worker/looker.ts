import { inspect, type Inspection, type LookElsewhere } from '#lib/data/workspace/index.ts';
import type { Port } from './protocol.ts';

type Looked = Parameters<LookElsewhere>;

/** What one worker asks the other to look at. */
type LookRequest =
  | {
      readonly id: number;
      readonly source: Looked[0];
      readonly options: Pick<Looked[1], 'stations' | 'answers'>;
    }
  | { readonly id: number; readonly stop: true };

type LookReply =
  | { readonly id: number; readonly kind: 'begun' }
  | { readonly id: number; readonly kind: 'progress'; readonly bytes: number }
  | { readonly id: number; readonly kind: 'looked'; readonly inspection: Inspection }
  | { readonly id: number; readonly kind: 'failed'; readonly message: string };

/** Looks at files for another thread; `pause` lets messages in that have arrived. */
export function serveLooks(port: Port, pause: () => Promise<void>): void {
  const stopped = new Set<number>();
  const send = (reply: LookReply) => port.postMessage(reply);
  port.addEventListener('message', ({ data }: MessageEvent<LookRequest>) => {
    const { id } = data;
    if ('stop' in data) {
      stopped.add(id);
      return;
    }
    send({ id, kind: 'begun' });
    const looking = inspect(data.source, {
      ...data.options,
      remembered: () => Promise.resolve(null),
      shouldStop: () => stopped.has(id),
      onProgress: async (bytes) => {
        send({ id, kind: 'progress', bytes });
        await pause();
      }
    });
    looking.then(
      (inspection) => send({ id, kind: 'looked', inspection }),
      (error: unknown) => send({ id, kind: 'failed', message: String(error) })
    );
  });
}

/** A thread that does not answer this long is taken to be none. */
const silenceMs = 3000;

interface Waiting {
  readonly options: Looked[1];
  readonly resolve: (inspection: Inspection) => void;
  readonly reject: (error: Error) => void;
  silence: ReturnType<typeof setTimeout> | null;
}

/** Asks another thread to look at files; where that does not answer they are looked at here. */
export function lookThrough(port: Port): LookElsewhere {
  const waiting = new Map<number, Waiting>();
  let nextId = 1;
  const ask = (request: LookRequest) => port.postMessage(request);

  function heard(call: Waiting): void {
    if (call.silence !== null) clearTimeout(call.silence);
    call.silence = null;
  }

  function progress(id: number, bytes: number, { options }: Waiting): void {
    void options.onProgress?.(bytes);
    if (options.shouldStop?.() === true) ask({ id, stop: true });
  }

  port.addEventListener('message', ({ data }: MessageEvent<LookReply>) => {
    const call = waiting.get(data.id);
    if (call === undefined) return;
    heard(call);
    if (data.kind === 'progress') progress(data.id, data.bytes, call);
    if (data.kind !== 'looked' && data.kind !== 'failed') return;
    waiting.delete(data.id);
    if (data.kind === 'looked') call.resolve(data.inspection);
    else call.reject(new Error(data.message));
  });

  return (source, options) =>
    new Promise((resolve, reject) => {
      const id = nextId++;
      const lookHere = () => {
        waiting.delete(id);
        inspect(source, { ...options, remembered: () => Promise.resolve(null) }).then(resolve, reject);
      };
      waiting.set(id, { options, resolve, reject, silence: setTimeout(lookHere, silenceMs) });
      const { stations, answers } = options;
      ask({ id, source, options: { stations, ...(answers === undefined ? {} : { answers }) } });
    });
}
