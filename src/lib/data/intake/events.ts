import { eventFields, eventKinds, eventSubjects, type EventRecord } from '#lib/data/record/index.ts';
import { eventFaultWords, type EventFaultCode } from '#lib/data/words/index.ts';
import { detectDelimiter, headBytes, headText, surveyEncoding } from './bytes/index.ts';
import { headerWordsOf } from './header/text.ts';
import { dayMs, dayOf, newTimeParts, scanTime } from './times/index.ts';
import { tokeniserFor } from './tokenise/index.ts';
import type { RecordView } from './tokeniser.ts';

/** A line of an events file that is no event, and why. */
export interface EventFault {
  readonly line: number;
  readonly code: EventFaultCode;
  readonly words: string;
}

export interface EventsFile {
  readonly events: readonly EventRecord[];
  readonly faults: readonly EventFault[];
}

type EventField = (typeof eventFields)[number]['name'];
type EventCells = ReadonlyMap<EventField, number>;

/**
 * Reads a file of events: a header with time, kind, subject and code, then one event a line. Nothing is asked, so
 * times have to be plain: the date year first or with the month's name, the clock with its offset from UTC or left out.
 */
export async function readEvents(blob: Blob): Promise<EventsFile> {
  if (blob.size === 0) return { events: [], faults: [faultOf(1, 'noHeader')] };
  const { name, bomBytes } = await surveyEncoding(blob);
  const { text, isWhole } = await headText(blob, { encoding: name, bomBytes }, headBytes);
  const dialect = { delimiter: detectDelimiter(text, isWhole).delimiter, encoding: name, bomBytes };
  const events: EventRecord[] = [];
  const faults: EventFault[] = [];
  let cells: EventCells | null = null;
  await tokeniserFor(dialect).read(blob, dialect, (record, fault) => {
    if (isBlankRecord(record)) return true;
    if (cells === null) {
      cells = cellsOf(record);
      if (cells === null) faults.push(faultOf(record.line, 'noHeader'));
      return cells !== null;
    }
    const event = fault === null ? eventOf(record, cells) : 'badForm';
    if (typeof event === 'string') faults.push(faultOf(record.line, event));
    else events.push(event);
    return true;
  });
  return { events, faults };
}

function faultOf(line: number, code: EventFaultCode): EventFault {
  return { line, code, words: eventFaultWords[code] };
}

function isBlankRecord(record: RecordView): boolean {
  for (let cell = 0; cell < record.cellCount; cell++) if (!record.isEmpty(cell)) return false;
  return true;
}

/** The cell of each field by the header; null where one of the needed fields is missing. */
function cellsOf(record: RecordView): EventCells | null {
  const cells = new Map<EventField, number>();
  for (let cell = 0; cell < record.cellCount; cell++) {
    const header = headerWordsOf(record.text(cell))
      .filter((word) => word !== 'utc')
      .join(' ');
    const field = eventFields.find(({ headerWords }) => headerWords.some((word) => word === header));
    if (field !== undefined && !cells.has(field.name)) cells.set(field.name, cell);
  }
  const hasAll = (['time', 'kind', 'subject', 'code'] as const).every((name) => cells.has(name));
  return hasAll ? cells : null;
}

function eventOf(record: RecordView, cells: EventCells): EventRecord | EventFaultCode {
  const textOf = (field: EventField) => {
    const cell = cells.get(field);
    return cell === undefined ? '' : record.text(cell).trim();
  };
  const timeMs = plainInstant(textOf('time'));
  if (Number.isNaN(timeMs)) return 'badTime';
  const kind = eventKinds.find((known) => bare(known) === bare(textOf('kind')));
  if (kind === undefined) return 'unknownKind';
  const subject = eventSubjects.find((known) => bare(known) === bare(textOf('subject')));
  if (subject === undefined) return 'unknownSubject';
  const code = textOf('code');
  return code === '' ? 'noCode' : { timeMs, kind, subject, code, note: textOf('note') };
}

/** `meter exchange` and `meterExchange` are one word. */
function bare(text: string): string {
  return text
    .slice(0, 60)
    .replace(/[\s_-]/g, '')
    .toLowerCase();
}

const parts = newTimeParts();

/** The instant of a time that can be read in one way only, NaN for any other. */
function plainInstant(text: string): number {
  scanTime(text, parts);
  const isPlain = parts.form === 'ymd' && !parts.twoDigitYear;
  if (!isPlain || (parts.hasClock && Number.isNaN(parts.offsetMinutes))) return NaN;
  const offsetMs = parts.hasClock ? parts.offsetMinutes * 60_000 : 0;
  return dayOf(parts, null) * dayMs + parts.clockMs - offsetMs;
}
