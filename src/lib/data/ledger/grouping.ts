import type { CodeColumn } from '#lib/data/columns/index.ts';
import type { NameFieldName } from '#lib/data/record/index.ts';

/** What answers can be broken down by. */
export type GroupKey = NameFieldName | 'month' | 'size';

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

/** Months from the first to the last in the data, those without uplifts included, so that a series shows its gaps. */
export function byMonth(times: Float64Array): Grouping {
  const codes = new Uint32Array(times.length);
  let first = Infinity;
  let last = -Infinity;
  for (const time of times) {
    if (time < first) first = time;
    if (time > last) last = time;
  }
  if (!(last >= first)) return { codes, count: 1, name: () => '' };
  const firstMonth = monthNumber(first);
  const count = monthNumber(last) - firstMonth + 2;
  // A table by day spares the million calendar look-ups.
  const firstDay = Math.floor(first / dayMs);
  const monthOfDay = Uint32Array.from(
    { length: Math.floor(last / dayMs) - firstDay + 1 },
    (_none, day) => monthNumber((firstDay + day) * dayMs) - firstMonth + 1
  );
  for (let row = 0; row < codes.length; row++) {
    codes[row] = monthOfDay[Math.floor((times[row] ?? NaN) / dayMs) - firstDay] ?? 0;
  }
  return { codes, count, name: (code) => (code === 0 ? '' : monthName(firstMonth + code - 1)) };
}
