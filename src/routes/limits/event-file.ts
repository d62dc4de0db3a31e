import {
  eventFields,
  eventKinds,
  eventSubjects,
  type EventKind,
  type EventRecord,
  type EventSubject
} from '#lib/data/record/index.ts';
import { eventKindWords } from '#lib/data/words/index.ts';

type FieldName = (typeof eventFields)[number]['name'];

/** What a file of events holds, and what of it was not understood, line by line in words. */
export interface EventFile {
  readonly events: readonly EventRecord[];
  readonly problems: readonly string[];
}

/** A record of the file and the physical line it starts on. */
interface CsvRecord {
  readonly line: number;
  readonly cells: readonly string[];
}

function delimiterOf(text: string): string {
  const header = text.slice(0, Math.max(0, text.indexOf('\n')) || text.length);
  const counts = [',', ';', '\t'].map((mark) => ({ mark, count: header.split(mark).length }));
  return counts.reduce((best, each) => (each.count > best.count ? each : best)).mark;
}

/** RFC 4180: quoted cells may hold the delimiter, doubled quotes and line ends. Blank lines are skipped. */
function recordsOf(text: string, delimiter: string): CsvRecord[] {
  const records: CsvRecord[] = [];
  let cells: string[] = [];
  let cell = '';
  let isQuoted = false;
  let line = 1;
  let start = 1;
  const endRecord = (): void => {
    cells.push(cell);
    if (cells.some((each) => each.trim() !== '')) records.push({ line: start, cells });
    cells = [];
    cell = '';
    start = line;
  };
  for (let i = 0; i < text.length; i++) {
    const mark = text.charAt(i);
    if (mark === '\n') line++;
    if (isQuoted) {
      if (mark !== '"') cell += mark;
      else if (text.charAt(i + 1) === '"') cell += text.charAt(i++);
      else isQuoted = false;
    } else if (mark === '"' && cell === '') isQuoted = true;
    else if (mark === delimiter) {
      cells.push(cell);
      cell = '';
    } else if (mark === '\n') endRecord();
    else if (mark !== '\r') cell += mark;
  }
  endRecord();
  return records;
}

/** The words of a code and the code itself read as the same: "meter exchanged", "meterExchange", "Meter exchange". */
const plain = (text: string): string => text.toLowerCase().replaceAll(/[^a-z0-9]/g, '');

function kindOf(text: string): EventKind | undefined {
  return eventKinds.find((kind) => [kind, eventKindWords[kind]].some((word) => plain(word) === plain(text)));
}

function subjectOf(text: string): EventSubject | undefined {
  return eventSubjects.find((subject) => plain(subject) === plain(text));
}

const isoDay = /^\d{4}-\d{2}-\d{2}([T ]\d{2}:\d{2}(:\d{2}(\.\d+)?)?Z?)?$/;

/** An instant of a day or of a day and time, UTC; NaN for anything else. No other order of day and month is guessed. */
function instantOf(text: string): number {
  if (!isoDay.test(text)) return NaN;
  const instant = text.length > 10 && !text.endsWith('Z') ? `${text}Z` : text;
  const timeMs = Date.parse(instant.replace(' ', 'T'));
  // The 31st of February is read as a day of March by some engines.
  return Number.isNaN(timeMs) || new Date(timeMs).toISOString().slice(0, 10) !== text.slice(0, 10)
    ? NaN
    : timeMs;
}

function eventOf(value: (name: FieldName) => string): EventRecord | string {
  const timeMs = instantOf(value('time'));
  const kind = kindOf(value('kind'));
  const subject = subjectOf(value('subject'));
  const code = value('code');
  if (Number.isNaN(timeMs)) return `“${value('time')}” is no day as 2031-07-01`;
  if (kind === undefined) return `“${value('kind')}” is no kind of event known here`;
  if (subject === undefined) return `“${value('subject')}” is none of ${eventSubjects.join(', ')}`;
  if (code === '') return 'whom it is about is missing';
  return { timeMs, kind, subject, code, note: value('note') };
}

/** Reads a file of events: a header with time, kind, subject, code and note in any order, one event a line. */
export function eventsOf(text: string): EventFile {
  const content = text.replace(/^\uFEFF/, '');
  const [header, ...rows] = recordsOf(content, delimiterOf(content));
  const names = (header?.cells ?? []).map(plain);
  const columnOf = new Map(
    eventFields.map(({ name, headerWords }) => [
      name,
      names.findIndex((each) => headerWords.some((word) => plain(word) === each))
    ])
  );
  const missing = eventFields.filter(({ name }) => name !== 'note' && columnOf.get(name) === -1);
  if (missing.length > 0) {
    const words = missing.map(({ name }) => name).join(', ');
    return { events: [], problems: [`The first line must name the columns; missing: ${words}.`] };
  }
  const events: EventRecord[] = [];
  const problems: string[] = [];
  for (const { line, cells } of rows) {
    const made = eventOf((name) => (cells[columnOf.get(name) ?? -1] ?? '').trim());
    if (typeof made === 'string') problems.push(`Line ${line}: ${made}.`);
    else events.push(made);
  }
  return { events, problems };
}

/** What makes two events one: day, subject, code and kind. */
export function eventKey(event: EventRecord): string {
  return `${new Date(event.timeMs).toISOString().slice(0, 10)} ${event.subject} ${event.code} ${event.kind}`;
}

/** Events with those of a file put in, each once, in order of time. */
export function withEvents(known: readonly EventRecord[], added: readonly EventRecord[]): EventRecord[] {
  const all = new Map([...known, ...added].map((event) => [eventKey(event), event]));
  return [...all.values()].sort((a, b) => a.timeMs - b.timeMs);
}
