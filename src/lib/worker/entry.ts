import { openWorkspace } from '#lib/data/workspace/index.ts';
import { serve } from './engine.ts';

// Messages that arrive while the workspace opens wait for it inside `serve`.
const opening = openWorkspace((state) => report(state));
const report = serve(self, opening);
