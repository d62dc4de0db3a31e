import type { Store } from '#lib/data/store/index.ts';
import { Workspace, type DemoSource, type WorkspaceState } from '#lib/data/workspace/index.ts';

const noDemo: DemoSource = {
  seed: 1,
  truth: () => [],
  async *files() {},
  answers: () => [],
  stories: () => [],
  settings: (before) => before,
  settingsWithout: (after) => after
};

/** A workspace as one window of the browser has it. */
export interface Window {
  readonly workspace: Workspace;
  /** Waits until no file is being worked on. */
  readonly settled: () => Promise<WorkspaceState>;
  /** Takes a text in as a file. */
  readonly take: (text: string, name: string) => Promise<WorkspaceState>;
}

export interface WindowOptions {
  readonly openedMs?: number;
  readonly program?: string;
  readonly pause?: () => Promise<void>;
  readonly mostRecords?: number;
}

export function openWindow(store: Store, options: WindowOptions = {}): Window {
  const { openedMs = 0, program = 'Gaugebook test', pause = () => Promise.resolve(), ...more } = options;
  const workspace = new Workspace({
    store,
    program,
    now: () => openedMs,
    pause,
    onState: () => undefined,
    demo: noDemo,
    ...more
  });
  async function settled(): Promise<WorkspaceState> {
    for (;;) {
      await new Promise((resolve) => setTimeout(resolve, 0));
      const { state } = workspace;
      if (!state.files.some(({ status }) => ['waiting', 'inspecting', 'reading'].includes(status)))
        return state;
    }
  }
  async function take(text: string, name: string): Promise<WorkspaceState> {
    await workspace.addFiles([{ name, blob: new Blob([text]) }]);
    await settled();
    await workspace.useAllFiles();
    return settled();
  }
  return { workspace, settled, take };
}
