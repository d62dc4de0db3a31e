import { browserStore, openWorkspace, type WorkspaceState } from '#lib/data/workspace/index.ts';
import { demoSource } from './demo.ts';
import { serve } from './engine.ts';
import { nextTurn } from './turn.ts';

declare const __GAUGEBOOK_VERSION__: string;

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
    demo: demoSource
  })
);
report = serve(self, opening);
