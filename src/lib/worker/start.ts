import entryUrl from './entry.ts?worker&url';
import { lookerName, type Introduction, type Port } from './protocol.ts';

/**
 * Starts the worker that keeps the records, and beside it the one that looks at files, from a blob of one line that imports the built script. A worker loaded by URL would escape the
 * page's content policy; a blob inherits it. The Trusted Types policy admits that one blob and nothing else.
 */
export function startWorker(): Port & { terminate(): void } {
  const script = new URL(entryUrl, window.location.href).href;
  const blob = new Blob([`import ${JSON.stringify(script)};`], { type: 'text/javascript' });
  const address = URL.createObjectURL(blob);
  const policy = window.trustedTypes?.createPolicy('gaugebook-worker', {
    createScriptURL(url: string) {
      if (url !== address) throw new TypeError(`worker script: ${url}, need the one blob made here`);
      return url;
    }
  });
  // Browsers without Trusted Types take the address itself; the type of Worker knows only strings and URLs.
  const source = (policy?.createScriptURL(address) ?? address) as string;
  const worker = new Worker(source, { type: 'module', name: 'gaugebook' });
  const looker = new Worker(source, { type: 'module', name: lookerName });
  const { port1, port2 } = new MessageChannel();
  worker.postMessage({ companion: port1 } satisfies Introduction, [port1]);
  looker.postMessage({ companion: port2 } satisfies Introduction, [port2]);
  return worker;
}
