export type { ReadAhead } from './ahead.ts';
export { answered } from './answered.ts';
export { openFile, type NotOpened, type Opened, type OpenedFile, type OpenFault } from './bytes/index.ts';
export { refusedCsv } from './refused-csv.ts';
export { inspect, type InspectOptions, type LookElsewhere } from './inspect.ts';
export { largestFile, mostColumns } from './file-problem.ts';
export { layoutFrom, type Unsettled } from './layout-from.ts';
export { readRecords, type ReadOptions, type ReadResult } from './read-records.ts';
export { readEvents, type EventFault, type EventsFile } from './events.ts';
export { lookAlikeKey } from './identifiers.ts';
export { isZone } from './times/index.ts';
export type { Account, AccountColumn, FateCounts, RecordFate } from './account.ts';
export type { Inspection, ShownRecord } from './inspection.ts';
export type {
  ColumnFinding,
  ColumnReading,
  EncodingFinding,
  Layout,
  Note,
  RememberedLayout,
  UnitSource,
  ZoneRule
} from './layout.ts';
export type { Answer, Question, Reading, ReadingSample } from './question.ts';
export type { Source } from './source.ts';
export type { Dialect } from './tokeniser.ts';
