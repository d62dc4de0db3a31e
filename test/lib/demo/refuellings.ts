import { density15, densityAt } from '#lib/core/density/index.ts';
import { minutesPerDay } from '#lib/demo/calendar.ts';
import { layoutOfMonth, Months } from '#lib/demo/months.ts';
import type { DemoRow } from '#lib/demo/row.ts';
import { createWorld, type DemoOptions } from '#lib/demo/world.ts';

/** A refuelling of the generated world with its numbers, worked out from the rows alone. */
export interface Refuelling {
  readonly row: DemoRow;
  readonly day: number;
  readonly tickets: number;
  /** kg; metered mass of all tickets. */
  readonly massKg: number;
  readonly discrepancyKg: number;
  /** % of metered mass. */
  readonly percent: number;
  readonly density15KgM3: number;
  /** Whether anything was written in it that is not what was read. */
  readonly isPlanted: boolean;
}

/** All rows of a world, in order. */
export function rowsOf(options: DemoOptions): DemoRow[] {
  const months = new Months(createWorld(options));
  const rows: DemoRow[] = [];
  for (let month = 0; month < 18; month++) {
    for (const day of months.days(month, layoutOfMonth(month))) rows.push(...day);
  }
  return rows;
}

const meteredKg = (row: DemoRow): number => {
  const base = density15(row.densityObservedKgM3, row.densityTemperatureC, '1980');
  return (row.volumeL * densityAt(base, row.fuelTemperatureC, '1980')) / 1000;
};

/** Refuellings with a volume and whole cells in each of their tickets; what comes twice counts once. */
export function refuellingsOf(rows: readonly DemoRow[]): Refuelling[] {
  const tickets = new Map<number, DemoRow[]>();
  const seen = new Set<string>();
  for (const row of rows) {
    if (!(row.volumeL > 0) || seen.has(row.ticket)) continue;
    seen.add(row.ticket);
    const group = tickets.get(row.refuelling);
    if (group === undefined) tickets.set(row.refuelling, [row]);
    else group.push(row);
  }
  const isWhole = (row: DemoRow): boolean => row.cells === null && row.extraCells === 0;
  return [...tickets.values()].filter((group) => group.every(isWhole)).map(joined);
}

function joined(group: readonly DemoRow[]): Refuelling {
  const [row] = group;
  if (row === undefined) throw new RangeError('group: no row');
  const massKg = group.reduce((sum, ticket) => sum + meteredKg(ticket), 0);
  const burnKg = Number.isNaN(row.groundBurnKg) ? 0 : row.groundBurnKg;
  const discrepancyKg = row.departureFuelKg - row.arrivalFuelKg + burnKg - massKg;
  return {
    row,
    day: Math.floor(row.endMinute / minutesPerDay),
    tickets: group.length,
    massKg,
    discrepancyKg,
    percent: (100 * discrepancyKg) / massKg,
    density15KgM3: density15(row.densityObservedKgM3, row.densityTemperatureC, '1980'),
    isPlanted: group.some((ticket) => ticket.planted.length > 0)
  };
}

export const mean = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;

export function spread(values: readonly number[]): number {
  const centre = mean(values);
  return Math.sqrt(values.reduce((sum, value) => sum + (value - centre) ** 2, 0) / (values.length - 1));
}

export function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.floor(sorted.length / 2)] ?? NaN;
}

/** Slope of y on x by least squares. */
export function slope(points: readonly (readonly [x: number, y: number])[]): number {
  const [mx, my] = [mean(points.map(([x]) => x)), mean(points.map(([, y]) => y))];
  const products = points.reduce((sum, [x, y]) => sum + (x - mx) * (y - my), 0);
  return products / points.reduce((sum, [x]) => sum + (x - mx) ** 2, 0);
}

/** Share outside 3 % of metered mass without a floor, %: the limits the stories are sized for. */
export const outsidePercent = (group: readonly Refuelling[]): number =>
  (100 * group.filter(({ percent }) => Math.abs(percent) > 3).length) / group.length;

/** Refuellings by a key of theirs. */
export function grouped(
  list: readonly Refuelling[],
  key: (each: Refuelling) => string
): Map<string, Refuelling[]> {
  const groups = new Map<string, Refuelling[]>();
  for (const each of list) {
    const group = groups.get(key(each));
    if (group === undefined) groups.set(key(each), [each]);
    else group.push(each);
  }
  return groups;
}
