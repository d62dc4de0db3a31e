import { csvText } from './csv.ts';
import type { DemoTruth } from './truth.ts';

const storyHeader = [
  'story',
  'what',
  'station',
  'tail',
  'vehicle',
  'supplier',
  'from',
  'until',
  'size',
  'unit'
];
const recordHeader = ['file', 'line', 'ticket', 'station', 'tail', 'time', 'kind', 'field'];
const recordHeaderEnd = ['factor', 'true_value', 'written_value', 'story'];

/** The planted stories, one a line. */
export function truthStoriesCsv(truth: DemoTruth): string {
  const lines = truth.stories.map(({ number, what, where, from, until, size, unit }) => [
    number,
    what,
    where.station ?? '',
    where.tail ?? '',
    where.vehicle ?? '',
    where.supplier ?? '',
    from,
    until,
    size,
    unit
  ]);
  return csvText([storyHeader, ...lines]);
}

/** What was planted in single records, one a line. */
export function truthRecordsCsv(truth: DemoTruth): string {
  const lines = truth.records.map((record) => [
    record.file,
    record.line,
    record.ticket,
    record.station,
    record.tail,
    record.time,
    record.kind,
    record.field,
    record.factor,
    record.trueValue,
    record.writtenValue,
    record.story
  ]);
  return csvText([[...recordHeader, ...recordHeaderEnd], ...lines]);
}
