import { type PlannedFile, plannedFiles } from './file-plan.ts';
import { layoutPlain } from './layouts/layout-plain.ts';
import { writeHeader, writeRow } from './layouts/write.ts';
import { demoMonths } from './calendar.ts';
import { Months } from './months.ts';
import { createWorld, type DemoOptions, demoSeed, standardUplifts } from './world.ts';
import { writeFile } from './write-file.ts';

/** A file of the demo: its name, the sender's layout, and its text in pieces. Each call of `chunks` starts anew. */
export interface DemoFile {
  readonly name: string;
  readonly layout: 'A' | 'B' | 'C';
  readonly chunks: () => Iterable<string>;
}

const senderOf = (file: PlannedFile): DemoFile['layout'] =>
  file.layout.name === 'plain' ? 'A' : file.layout.name;

/** The files of the invented airline, made as they are read. The same options give the same bytes. */
export function demoFiles(options: DemoOptions = {}): DemoFile[] {
  const world = createWorld(options);
  const months = new Months(world);
  return plannedFiles(world.faults).map((file) => ({
    name: file.name,
    layout: senderOf(file),
    chunks: () => writeFile(world, months, file, {})
  }));
}

/** A file of exactly so many rows in one plain layout of 25 columns in canonical units, for benchmarks. */
export function benchmarkFile(rows: number, seed: number = demoSeed): Pick<DemoFile, 'name' | 'chunks'> {
  return { name: `uplifts-${rows}.csv`, chunks: () => benchmarkChunks(rows, seed) };
}

function* benchmarkChunks(rows: number, seed: number): Generator<string> {
  // More than asked, a small world by more, so that the last day is reached before the rows run out.
  const uplifts = Math.max(standardUplifts / 20, rows * 1.02 + 2000);
  const world = createWorld({ seed, uplifts });
  const months = new Months(world);
  let left = rows;
  let text = writeHeader(layoutPlain);
  for (let month = 0; month < demoMonths.length && left > 0; month++) {
    for (const day of months.days(month, 'plain')) {
      text += day
        .slice(0, left)
        .map((row) => writeRow(layoutPlain, row))
        .join('');
      left -= Math.min(left, day.length);
      if (text.length > 500_000) {
        yield text;
        text = '';
      }
      if (left === 0) break;
    }
  }
  if (left > 0) throw new RangeError(`rows: ${rows}, need at most the ${rows - left} the world made`);
  yield text;
}
