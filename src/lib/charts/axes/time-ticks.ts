import { utcDay, utcFormat, utcMonth, utcTicks, utcYear } from 'd3';

export interface TimeTick {
  /** Milliseconds UTC. */
  value: number;
  label: string;
  /** The year, on the first tick and where a year begins; empty elsewhere and where `label` is a year. */
  year: string;
}

const year = utcFormat('%Y');
const month = utcFormat('%b');
const day = utcFormat('%-d %b');
const hour = utcFormat('%H:%M');

/**
 * Ticks of a UTC time scale with their words: years, months, days or hours, the year once where it begins.
 *
 * @param domain milliseconds UTC
 * @param lengthPx length of the axis
 */
export function timeTicks(domain: readonly [number, number], lengthPx: number, gapPx = 56): TimeTick[] {
  if (!(domain[1] > domain[0])) return [];
  const count = Math.max(1, Math.floor(lengthPx / gapPx));
  const dates = utcTicks(new Date(domain[0]), new Date(domain[1]), count);
  const words = wordsOf(dates);
  return dates.map((date, index) => ({
    value: date.getTime(),
    label: words(date),
    year: words !== year && (index === 0 || utcYear(date).getTime() === date.getTime()) ? year(date) : ''
  }));
}

function wordsOf(dates: readonly Date[]): (date: Date) => string {
  const all = (floor: (date: Date) => Date) =>
    dates.every((date) => floor(date).getTime() === date.getTime());
  if (all(utcYear)) return year;
  if (all(utcMonth)) return month;
  return (date) => (utcDay(date).getTime() === date.getTime() ? day(date) : hour(date));
}
