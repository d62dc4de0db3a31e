import { isStudy, questions, type QuestionName } from '#lib/data/questions/index.ts';
import type { QuestionCalls, WorkspaceCalls } from './calls.ts';
import type { Course } from './study.ts';
import { Workspace, type WorkspaceOptions } from './workspace.ts';

export type { GivenFile, QuestionCalls, SourceLines, WorkspaceCalls } from './calls.ts';
export { inspect, type Inspection, type LookElsewhere } from '#lib/data/intake/index.ts';
export { browserStore } from '#lib/data/store/index.ts';
export type { DemoSource } from './demo-source.ts';
export type { DemoStory } from './demo-story.ts';
export type { FileStatus, FileView, WorkspaceState } from './state.ts';
export { StudyDropped, type Course } from './study.ts';
export type { StudyName } from '#lib/data/questions/index.ts';
export { Workspace, type WorkspaceOptions } from './workspace.ts';

/** Opens a workspace, takes up what was kept, and gives the calls on it. */
export async function openWorkspace(options: WorkspaceOptions): Promise<WorkspaceCalls> {
  const workspace = new Workspace(options);
  await workspace.restore();
  const names = Object.keys(questions) as QuestionName[];
  const asks = Object.fromEntries(
    names.map((name) => [
      name,
      isStudy(name)
        ? (asked: never, course: Course) => workspace.study(name, asked, course)
        : (asked: never) => Promise.resolve(workspace.ask(name, asked))
    ])
  ) as unknown as QuestionCalls;
  return {
    ...asks,
    addFiles: (files) => workspace.addFiles(files),
    answerQuestion: (given) => workspace.answerQuestion(given),
    useFile: (id) => workspace.useFile(id),
    useAllFiles: () => workspace.useAllFiles(),
    cancelFile: (id) => workspace.cancelFile(id),
    removeFile: (id) => workspace.removeFile(id),
    account: (id) => workspace.account(id),
    refusedRecords: (id) => workspace.refusedRecords(id),
    sourceLines: (address) => workspace.sourceLines(address),
    exportRecords: (list) => workspace.exportRecords(list),
    changeSettings: (settings) => workspace.changeSettings(settings),
    keepNote: (note) => workspace.keepNote(note),
    changePreferences: (preferences) => workspace.changePreferences(preferences),
    openDemo: () => workspace.openDemo(),
    saveDemo: () => workspace.saveDemo(),
    closeDemo: () => workspace.closeDemo(),
    demoStories: () => Promise.resolve(options.demo.stories()),
    forgetEverything: () => workspace.forgetEverything()
  };
}
