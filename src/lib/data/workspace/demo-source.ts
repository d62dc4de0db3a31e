import type { Answer, Inspection } from '#lib/data/intake/index.ts';
import type { Settings } from '#lib/data/settings/index.ts';
import type { GivenFile } from './calls.ts';
import type { DemoStory } from './demo-story.ts';

/** Where the demo comes from: the workspace takes its files in like any others. */
export interface DemoSource {
  readonly seed: number;
  readonly files: () => AsyncIterable<GivenFile>;
  /** What was planted, and the events, as files to be saved beside the demo's. Never computed with. */
  readonly truth: () => readonly { readonly name: string; readonly text: string }[];
  /** The planted stories as a reader is told them. Never computed with. */
  readonly stories: () => readonly DemoStory[];
  /** What a person would answer to the questions of one of its files. */
  readonly answers: (name: string, inspection: Inspection) => readonly Answer[];
  /** The settings with the demo's own limits and registers. */
  readonly settings: (before: Settings) => Settings;
  /** The settings without them again; `defaults` gives the limits to go back to. */
  readonly settingsWithout: (after: Settings, defaults: Settings) => Settings;
}
