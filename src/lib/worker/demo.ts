import {
  demoEvents,
  demoEventsCsv,
  demoFileAnswers,
  demoFiles,
  demoLayouts,
  demoLimitSet,
  demoSeed,
  demoStations,
  demoStories,
  demoTruth,
  demoTypes,
  demoVehicles,
  truthRecordsCsv,
  truthStoriesCsv,
  type DemoAnswer
} from '#lib/demo/index.ts';
import type { DemoSource } from '#lib/data/workspace/index.ts';

type Questioned = Parameters<DemoSource['answers']>[1];
type Question = Questioned['questions'][number];

/** What the demo calls a reading, and what the intake calls it. */
const readingNames = new Map([
  ['day first', 'dmy'],
  ['month first', 'mdy'],
  ['.', 'dot'],
  [',', 'comma'],
  ['UTC', 'utc']
]);

const questionNames: Readonly<Record<string, string>> = {
  unit: 'unit',
  dateOrder: 'date order',
  twoDigitYear: 'date order',
  decimal: 'decimal mark',
  zone: 'zone',
  orderedBasis: 'ordered as',
  densityMethod: 'density method'
};

function answersFor(name: string, headers: readonly string[]): readonly DemoAnswer[] {
  const layout = demoLayouts.find((known) => known.headerWords.join('\n') === headers.join('\n'));
  const own = demoFileAnswers.find((file) => file.file === name);
  // A file's own answers come first: they stand where it differs from its sender's others.
  return [...(own?.answers ?? []), ...(layout?.answers ?? [])];
}

/** The answer of the demo to a question of the intake; null where it has none. */
function answerTo(question: Question, header: string, answers: readonly DemoAnswer[]): string | null {
  const fits = (answer: DemoAnswer) => answer.column === header || answer.column === '';
  if (question.kind === 'word') {
    const word = question.id.split(':').slice(2).join(':');
    const found = answers.find((answer) => fits(answer) && answer.question.toLowerCase() === `word: ${word}`);
    return found?.answer ?? null;
  }
  const wanted = questionNames[question.kind];
  const found = answers.find((answer) => fits(answer) && answer.question === wanted)?.answer;
  if (found === undefined) return null;
  const named = readingNames.get(found) ?? found;
  return question.readings.find(({ id, words }) => id === named || words === named)?.id ?? null;
}

/** Registers of the demo beside what a person has entered; entries of the same code are the demo's. */
function beside<E extends { readonly code: string }>(own: readonly E[], demo: readonly E[]): E[] {
  return [...without(own, demo), ...demo];
}

function without<E extends { readonly code: string }>(all: readonly E[], demo: readonly E[]): E[] {
  const codes = new Set(demo.map(({ code }) => code));
  return all.filter(({ code }) => !codes.has(code));
}

/** Told before each file, so that the page stays answered while thousands of lines are made. */
function nextTurn(): Promise<void> {
  return new Promise((resolve) => setTimeout(resolve, 0));
}

/** The invented airline, made from its seed and taken in like any other files. */
export const demoSource: DemoSource = {
  seed: demoSeed,
  truth: () => {
    const truth = demoTruth();
    return [
      { name: 'truth-stories.csv', text: truthStoriesCsv(truth) },
      { name: 'truth-records.csv', text: truthRecordsCsv(truth) },
      { name: 'events.csv', text: demoEventsCsv() }
    ];
  },
  stories: () => demoStories,
  async *files() {
    for (const file of demoFiles()) {
      await nextTurn();
      yield { name: file.name, blob: new Blob([...file.chunks()], { type: 'text/csv' }) };
    }
  },
  answers(name, inspection) {
    const answers = answersFor(name, inspection.headers);
    return inspection.questions.flatMap((question) => {
      const header = question.column === null ? '' : (inspection.headers[question.column] ?? '');
      const answer = answerTo(question, header, answers);
      return answer === null ? [] : [{ id: question.id, answer }];
    });
  },
  settings: (before) => ({
    ...before,
    limitSets: [demoLimitSet],
    types: beside(before.types, demoTypes),
    stations: beside(before.stations, demoStations),
    vehicles: beside(before.vehicles, demoVehicles),
    events: [...before.events, ...demoEvents]
  }),
  settingsWithout: (after, before) => ({
    ...after,
    limitSets: before.limitSets,
    types: without(after.types, demoTypes),
    stations: without(after.stations, demoStations),
    vehicles: without(after.vehicles, demoVehicles),
    events: after.events.filter(
      (event) => !demoEvents.some((demo) => demo.timeMs === event.timeMs && demo.code === event.code)
    )
  })
};
