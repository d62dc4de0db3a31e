import type { EventRecord } from '#lib/data/record/index.ts';
import { instantOf, minutesPerDay } from './calendar.ts';
import { csvText } from './csv.ts';
import { events } from './event-list.ts';

/** What happened to vehicles, tails and stations in the demo, as records of events. */
export const demoEvents: readonly EventRecord[] = events.map(({ day, ...event }) => ({
  timeMs: instantOf(day * minutesPerDay),
  ...event
}));

/** The events as a file: nine meter exchanges, six gauge jobs, two supplier changes, one opening. */
export function demoEventsCsv(): string {
  const lines = demoEvents.map(({ timeMs, kind, subject, code, note }) => [
    new Date(timeMs).toISOString(),
    kind,
    subject,
    code,
    note
  ]);
  return csvText([['time', 'kind', 'subject', 'code', 'note'], ...lines]);
}
