import type { ColumnKey } from '#lib/data/record/index.ts';
import type { ColumnRole, ColumnSight, Recognition } from '../header/recognise.ts';

/** The columns that make up one time field. */
export interface TimePlan {
  readonly key: ColumnKey;
  readonly column: number;
  readonly clockColumn: number | null;
}

/** A time field whose columns cannot be told apart without an answer. */
export interface TimeDoubt {
  readonly key: ColumnKey;
  readonly columns: readonly number[];
}

export interface TimePlans {
  readonly plans: readonly TimePlan[];
  readonly doubts: readonly TimeDoubt[];
}

/**
 * Joins dates and clocks: a field has one column with both, or a date column and a clock column. A clock without a
 * date column of its own takes the one of the other time field.
 */
export function planTimes(roles: readonly ColumnRole[], chosen: ReadonlySet<number>): TimePlans {
  const plans: TimePlan[] = [];
  const doubts: TimeDoubt[] = [];
  const keys: ColumnKey[] = ['time', 'startTime'];
  const dateOf = new Map(
    keys.flatMap((key): [ColumnKey, number][] => {
      const date = roles.find((role) => role.key === key && role.part === 'date');
      return date === undefined ? [] : [[key, date.column]];
    })
  );
  for (const key of keys) {
    const own = roles.filter((role) => role.key === key);
    const picked = own.filter((role) => chosen.has(role.column));
    const wholes = (picked.some((role) => role.part === 'whole') ? picked : own).filter(
      ({ part }) => part === 'whole'
    );
    const dates = own.filter(({ part }) => part === 'date');
    const clocks = own.filter(({ part }) => part === 'clock');
    const exact = wholes.filter((role) => role.exact);
    const best = exact.length === 1 ? exact : wholes;
    const [whole] = best;
    const [clock] = clocks;
    const date =
      dates[0]?.column ?? (clock === undefined ? undefined : (dateOf.get('time') ?? dateOf.get('startTime')));
    if (best.length > 1 || (whole === undefined && (dates.length > 1 || clocks.length > 1))) {
      const rivals = best.length > 1 ? best : dates.length > 1 ? dates : clocks;
      doubts.push({ key, columns: rivals.map(({ column }) => column) });
    } else if (whole !== undefined) {
      plans.push({ key, column: whole.column, clockColumn: null });
    } else if (date !== undefined) {
      plans.push({ key, column: date, clockColumn: clock?.column ?? null });
    }
  }
  return { plans, doubts };
}

/** Columns of clocks that no field takes: one of them may belong to a date that stands alone. */
export function freeClocks(sights: readonly ColumnSight[], { roles }: Recognition): number[] {
  const taken = new Set(roles.map(({ column }) => column));
  return sights.flatMap(({ content }, column) =>
    !taken.has(column) && content.clocks > 0 && content.clocks * 2 >= content.filled ? [column] : []
  );
}
