import type { Account, Answer } from '#lib/data/intake/index.ts';
import type { Answered, Asked, QuestionName, RecordList, StudyName } from '#lib/data/questions/index.ts';
import type { Settings } from '#lib/data/settings/index.ts';
import type { FindingNote, Preferences } from '#lib/data/store/index.ts';
import type { DemoStory } from './demo-story.ts';
import type { Course } from './study.ts';

/** A file handed over for import. */
export interface GivenFile {
  readonly name: string;
  readonly blob: Blob;
}

/** Questions by name, each with its own argument and answer; those that are studies are driven by a course. */
export type QuestionCalls = {
  [N in Exclude<QuestionName, StudyName>]: (asked: Asked<N>) => Promise<Answered<N>>;
} & { [N in StudyName]: (asked: Asked<N>, course: Course) => Promise<Answered<N>> };

/** The raw text of a record's lines in its source file. */
export interface SourceLines {
  readonly file: string;
  readonly line: number;
  readonly text: string;
}

/** What else can be asked of the workspace. */
export interface OtherCalls {
  addFiles(files: readonly GivenFile[]): Promise<void>;
  answerQuestion(given: { readonly fileId: string; readonly answer: Answer }): Promise<void>;
  useFile(fileId: string): Promise<void>;
  useAllFiles(given: null): Promise<void>;
  /** Stops reading a file; what was read of it is taken out. */
  cancelFile(fileId: string): Promise<void>;
  removeFile(fileId: string): Promise<void>;
  account(fileId: string): Promise<Account | null>;
  refusedRecords(fileId: string): Promise<Blob | null>;
  sourceLines(address: string): Promise<SourceLines | null>;
  exportRecords(list: RecordList): Promise<Blob>;
  changeSettings(settings: Settings): Promise<void>;
  keepNote(note: FindingNote): Promise<void>;
  changePreferences(preferences: Preferences): Promise<void>;
  openDemo(given: null): Promise<void>;
  /** The demo's files with what was planted in them, as one archive. */
  saveDemo(given: null): Promise<Blob>;
  closeDemo(given: null): Promise<void>;
  demoStories(given: null): Promise<readonly DemoStory[]>;
  forgetEverything(given: null): Promise<void>;
}

/** All that can be asked of the workspace from outside. */
export type WorkspaceCalls = QuestionCalls & OtherCalls;
