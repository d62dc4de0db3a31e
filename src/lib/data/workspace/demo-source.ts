import type { RememberedLayout } from '#lib/data/intake/index.ts';
import type { Settings } from '#lib/data/settings/index.ts';
import type { GivenFile } from './calls.ts';

/** Where the demo comes from: the workspace takes it in like any other files. */
export interface DemoSource {
  readonly files: () => Promise<readonly GivenFile[]>;
  /** The readings a person would have settled for the demo's layouts. */
  readonly layouts: () => Promise<readonly RememberedLayout[]>;
  /** The settings with the demo's own limits and registers, and without them again. */
  readonly settings: (before: Settings) => Settings;
  readonly settingsWithout: (after: Settings) => Settings;
}
