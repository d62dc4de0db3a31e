/** First instant of the demo, ms UTC: 1 April 2025. Everything inside counts minutes and days from here. */
export const startMs = Date.UTC(2025, 3, 1);
/** Length of the demo: eighteen whole months. */
export const demoDays = 548;
export const minutesPerDay = 1440;
const msPerMinute = 60_000;
const monthCount = 18;

/** A month of the demo: its name (`2025-04`), its first day and the day after its last. */
export interface DemoMonth {
  readonly name: string;
  readonly fromDay: number;
  readonly untilDay: number;
}

interface DateParts {
  readonly year: string;
  readonly month: string;
  readonly day: string;
}

const dayOf = (year: number, month: number): number =>
  Math.round((Date.UTC(year, month, 1) - startMs) / (minutesPerDay * msPerMinute));

/** The eighteen months in order. */
export const demoMonths: readonly DemoMonth[] = Array.from({ length: monthCount }, (_, index) => ({
  name: new Date(Date.UTC(2025, 3 + index, 1)).toISOString().slice(0, 7),
  fromDay: dayOf(2025, 3 + index),
  untilDay: dayOf(2025, 4 + index)
}));

// Local clocks reach a day beyond either end, and a slip a year ahead.
const margin = 2;
const datesByDay: readonly DateParts[] = Array.from({ length: demoDays + 2 * margin + 366 }, (_, index) => {
  const text = new Date(startMs + (index - margin) * minutesPerDay * msPerMinute).toISOString();
  return { year: text.slice(0, 4), month: text.slice(5, 7), day: text.slice(8, 10) };
});

const twoDigits: readonly string[] = Array.from({ length: 60 }, (_, index) => String(index).padStart(2, '0'));

/** Year, month and day of a minute of the demo, as digits. */
export function dateOf(minute: number): DateParts {
  const parts = datesByDay[Math.floor(minute / minutesPerDay) + margin];
  if (parts === undefined) throw new RangeError(`date: minute ${minute}, need a minute of the demo`);
  return parts;
}

/** Hours and minutes of the day, `HH:MM`. */
export function clockOf(minute: number): string {
  const ofDay = minute - Math.floor(minute / minutesPerDay) * minutesPerDay;
  return `${twoDigits[Math.floor(ofDay / 60)] ?? ''}:${twoDigits[ofDay % 60] ?? ''}`;
}

/** A minute of the demo as an instant, ms UTC. */
export function instantOf(minute: number): number {
  return startMs + minute * msPerMinute;
}

/** A minute as ISO 8601 in UTC, `2025-04-01T05:12Z`. */
export function isoOf(minute: number): string {
  const { year, month, day } = dateOf(minute);
  return `${year}-${month}-${day}T${clockOf(minute)}Z`;
}
