import {
  browserStore,
  openWorkspace,
  type LookElsewhere,
  type WorkspaceState
} from '#lib/data/workspace/index.ts';
import { demoSource } from './demo.ts';
import { serve } from './engine.ts';
import { lookThrough, serveLooks } from './looker.ts';
import { isIntroduction, lookerName } from './protocol.ts';
import { nextTurn } from './turn.ts';

declare const __GAUGEBOOK_VERSION__: string;

/** Gives the channel to the other worker once the page has made it. */
function whenIntroduced(take: (companion: MessagePort) => void): void {
  self.addEventListener('message', ({ data }: MessageEvent<unknown>) => {
    if (!isIntroduction(data)) return;
    take(data.companion);
    data.companion.start();
  });
}

/** Keeps the records and answers the page. */
function serveRecords(): void {
  const looker = new Promise<LookElsewhere>((resolve) =>
    whenIntroduced((companion) => resolve(lookThrough(companion)))
  );
  // Requests that arrive while the workspace opens wait for it inside `serve`.
  let report: (state: WorkspaceState) => void = () => undefined;
  const opening = browserStore().then((store) =>
    openWorkspace({
      store,
      program: `Gaugebook ${__GAUGEBOOK_VERSION__}`,
      // From one origin in all windows: files are named by when they were taken in.
      now: () => performance.timeOrigin + performance.now(),
      pause: nextTurn,
      onState: (state) => report(state),
      demo: demoSource,
      elsewhere: async (source, options) => (await looker)(source, options)
    })
  );
  report = serve(self, opening);
}

if (self.name === lookerName) whenIntroduced((companion) => serveLooks(companion, nextTurn));
else serveRecords();
