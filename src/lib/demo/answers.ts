import { type PlannedFile, plannedFiles } from './file-plan.ts';
import type { DemoAnswer } from './layouts/column.ts';
import { layoutA } from './layouts/layout-a.ts';
import { layoutB } from './layouts/layout-b.ts';
import { layoutC } from './layouts/layout-c.ts';
import type { Layout } from './layouts/layout.ts';

/** What a person would have answered about a sender's files, on meeting the first of them. */
export interface DemoLayout {
  readonly layout: 'A' | 'B' | 'C';
  /** Headers in the order of the columns; all files of a sender have the same. */
  readonly headerWords: readonly string[];
  readonly answers: readonly DemoAnswer[];
}

function answersOf(layout: Layout): DemoAnswer[] {
  const ofColumns = layout.columns.flatMap((column) =>
    column.answers.map(([question, answer]) => ({ column: column.header, question, answer }))
  );
  return [{ column: '', question: 'decimal mark', answer: layout.decimalMark }, ...ofColumns];
}

const described = (layout: 'A' | 'B' | 'C', columns: Layout): DemoLayout => ({
  layout,
  headerWords: columns.columns.map((column) => column.header),
  answers: answersOf(columns)
});

/** The three senders' layouts, each read as its usual files must be. */
export const demoLayouts: readonly DemoLayout[] = [
  described('A', layoutA),
  described('B', layoutB),
  described('C', layoutC(false, '.'))
];

/** Answers that hold for single files only: they have their sender's headers and another reading. */
export const demoFileAnswers: readonly { readonly file: string; readonly answers: readonly DemoAnswer[] }[] =
  plannedFiles(true)
    .filter((file) => file.oddity === 'month before day' || file.oddity === 'decimal commas')
    .map((file) => ({ file: file.name, answers: differing(file) }));

function differing(file: PlannedFile): DemoAnswer[] {
  const usual = demoLayouts.find((entry) => entry.layout === file.layout.name)?.answers ?? [];
  return answersOf(file.layout).filter((answer, index) => answer.answer !== usual[index]?.answer);
}
