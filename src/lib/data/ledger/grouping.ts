import type { CodeColumn } from '#lib/data/columns/index.ts';
import type { NameFieldName } from '#lib/data/record/index.ts';

/** What answers can be broken down by. */
export type GroupKey = NameFieldName | 'month' | 'week' | 'size';

/** A code per row and the name of each code; code 0 is "not recorded" or "none". */
export interface Grouping {
  readonly codes: Uint32Array;
  readonly count: number;
  readonly name: (code: number) => string;
}

/**
 * Upper edges of the uplift size bands, kg of metered mass. Fine below 6 t, where a limit in per cent bites
 * hardest; a comparison over bands that are too wide can turn round.
 */
export const sizeBandEdgesKg = [500, 1000, 2000, 3000, 4000, 6000, 9000, 13000, 20000, 40000] as const;

/** The name of a size band: the masses it lies between, kg. */
export function sizeBandName(code: number): string {
  const from = sizeBandEdgesKg[code - 2];
  const until = sizeBandEdgesKg[code - 1];
  if (code === 0) return '';
  if (from === undefined) return `under ${until ?? 0}`;
  return until === undefined ? `${from} and more` : `${from} to ${until}`;
}

export function byName(column: CodeColumn): Grouping {
  return {
    codes: column.codes(),
    count: column.dictionary.size,
    name: (code) => column.dictionary.text(code)
  };
}

export function bySize(massKg: Float64Array): Grouping {
  const codes = new Uint32Array(massKg.length);
  for (let row = 0; row < codes.length; row++) {
    const mass = massKg[row] ?? NaN;
    if (!(mass >= 0)) continue;
    let band = 1;
    while (mass >= (sizeBandEdgesKg[band - 1] ?? Infinity)) band++;
    codes[row] = band;
  }
  return { codes, count: sizeBandEdgesKg.length + 2, name: sizeBandName };
}

const dayMs = 86_400_000;

/** Months since January 1970 of an instant, UTC. */
export function monthNumber(timeMs: number): number {
  const date = new Date(timeMs);
  return (date.getUTCFullYear() - 1970) * 12 + date.getUTCMonth();
}

/** A month as `2026-03`. */
export function monthName(number: number): string {
  const year = 1970 + Math.floor(number / 12);
  return `${year}-${String(number - (year - 1970) * 12 + 1).padStart(2, '0')}`;
}

/** Weeks since the one of Monday 29 December 1969, of an instant, UTC. */
export function weekNumber(timeMs: number): number {
  return Math.floor((Math.floor(timeMs / dayMs) + 3) / 7);
}

/** The first instant of a week, ms UTC. */
export function weekStart(number: number): number {
  return (number * 7 - 3) * dayMs;
}

/** A week as ISO 8601 writes it, `2031-W27`: it belongs to the year that holds its Thursday. */
export function weekName(number: number): string {
  const thursday = new Date(weekStart(number) + 3 * dayMs);
  const year = thursday.getUTCFullYear();
  const ordinal = Math.floor((thursday.getTime() - Date.UTC(year, 0, 1)) / dayMs);
  return `${year}-W${String(Math.floor(ordinal / 7) + 1).padStart(2, '0')}`;
}

/** Periods from the first to the last in the data, those without uplifts included, so that a series shows its gaps. */
function byPeriod(
  times: Float64Array,
  numberOf: (timeMs: number) => number,
  nameOf: (number: number) => string
): Grouping {
  const codes = new Uint32Array(times.length);
  let first = Infinity;
  let last = -Infinity;
  for (const time of times) {
    if (time < first) first = time;
    if (time > last) last = time;
  }
  if (!(last >= first)) return { codes, count: 1, name: () => '' };
  const firstPeriod = numberOf(first);
  // A table by day spares the million calendar look-ups.
  const firstDay = Math.floor(first / dayMs);
  const periodOfDay = Uint32Array.from(
    { length: Math.floor(last / dayMs) - firstDay + 1 },
    (_none, day) => numberOf((firstDay + day) * dayMs) - firstPeriod + 1
  );
  for (let row = 0; row < codes.length; row++) {
    codes[row] = periodOfDay[Math.floor((times[row] ?? NaN) / dayMs) - firstDay] ?? 0;
  }
  return {
    codes,
    count: numberOf(last) - firstPeriod + 2,
    name: (code) => (code === 0 ? '' : nameOf(firstPeriod + code - 1))
  };
}

export function byMonth(times: Float64Array): Grouping {
  return byPeriod(times, monthNumber, monthName);
}

export function byWeek(times: Float64Array): Grouping {
  return byPeriod(times, weekNumber, weekName);
}
