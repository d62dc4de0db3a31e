import { isoOf, startMs } from './calendar.ts';
import { plannedFiles } from './file-plan.ts';
import { Months } from './months.ts';
import type { DemoRow, Planted } from './row.ts';
import { stories, type StoryTruth } from './stories.ts';
import { createWorld, type DemoOptions } from './world.ts';
import { writeFile } from './write-file.ts';

/** One thing planted in one record of one file. */
export interface RecordTruth {
  readonly file: string;
  /** First physical line of the record, from 1. */
  readonly line: number;
  /** Empty where the line is no uplift. */
  readonly ticket: string;
  readonly station: string;
  readonly tail: string;
  /** End of fuelling, ISO 8601 UTC; empty where the line is no uplift. */
  readonly time: string;
  readonly kind: string;
  readonly field: string;
  /** Written over true value where the fault is a proportion, else null. */
  readonly factor: number | null;
  readonly trueValue: string;
  readonly writtenValue: string;
  /** Number of the planted story it belongs to, 0 for everyday slips. */
  readonly story: number;
}

/** A file of the demo, with what is odd about it and how many uplifts stand in it. */
export interface FileTruth {
  readonly name: string;
  readonly layout: string;
  readonly rows: number;
  readonly oddity: 'none' | 'same as another' | 'month before day' | 'decimal commas';
}

/** What, where, when and how big: all that was planted. Never an input to any computation of the site. */
export interface DemoTruth {
  readonly seed: number;
  /** First instant of the demo, ISO 8601 UTC. */
  readonly start: string;
  readonly uplifts: number;
  readonly stories: readonly StoryTruth[];
  readonly files: readonly FileTruth[];
  /** The file that comes twice is told of once. */
  readonly records: readonly RecordTruth[];
}

const recordOf = (file: string, line: number, row: DemoRow, planted: Planted): RecordTruth => ({
  file,
  line,
  ticket: row.ticket,
  station: row.stationCode,
  tail: planted.field === 'tail' ? planted.trueValue : row.tail,
  time: isoOf(row.endMinute),
  kind: planted.kind,
  field: planted.field,
  factor: Number.isNaN(planted.factor) ? null : planted.factor,
  trueValue: planted.trueValue,
  writtenValue: planted.writtenValue,
  story: planted.story
});

const lineOf = (file: string, line: number, kind: string): RecordTruth => ({
  file,
  line,
  ticket: '',
  station: '',
  tail: '',
  time: '',
  kind,
  field: '',
  factor: null,
  trueValue: '',
  writtenValue: '',
  story: 0
});

/** The truth of the world that `demoFiles` writes for the same options, found by writing it. */
export function demoTruth(options: DemoOptions = {}): DemoTruth {
  const world = createWorld(options);
  const months = new Months(world);
  const records: RecordTruth[] = [];
  const files: FileTruth[] = [];
  for (const file of plannedFiles(world.faults)) {
    let rows = 0;
    const pieces = writeFile(world, months, file, {
      row: (row, line) => {
        rows++;
        if (file.oddity === 'same as another') return;
        for (const planted of row.planted) records.push(recordOf(file.name, line, row, planted));
      },
      other: (kind, line) => {
        if (file.oddity !== 'same as another') records.push(lineOf(file.name, line, kind));
      }
    });
    for (const _ of pieces);
    files.push({ name: file.name, layout: file.layout.name, rows, oddity: file.oddity });
  }
  return {
    seed: world.seed,
    start: new Date(startMs).toISOString(),
    uplifts: files.reduce((sum, file) => sum + (file.oddity === 'same as another' ? 0 : file.rows), 0),
    stories: world.faults ? stories : [],
    files,
    records
  };
}
