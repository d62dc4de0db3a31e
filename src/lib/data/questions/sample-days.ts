import { checkStates, type CheckFieldName, type NameFieldName } from '#lib/data/record/index.ts';
import { weekNumber, weekStart, type RecordFilter } from '#lib/data/ledger/index.ts';
import type { QuestionContext } from './context.ts';

/** One place in one period: checks due, with a result, and failed. Only periods with a check due have one. */
export interface SampleCell {
  /** Index in `groups` and in `periodsMs`. */
  readonly group: number;
  readonly period: number;
  readonly due: number;
  readonly done: number;
  readonly failed: number;
}

export interface SampleDaysAnswer {
  readonly step: 'day' | 'week';
  readonly groups: readonly string[];
  /** First instant of every period from the first to the last in hand, ms UTC. */
  readonly periodsMs: readonly number[];
  readonly cells: readonly SampleCell[];
  /** Groups beyond the most that are drawn. */
  readonly leftOut: number;
}

const dayMs = 86_400_000;
/** Rows of a calendar that a reader can follow; those with most checks due are kept. */
const mostGroups = 24;
/** A calendar with more days than this is drawn in weeks unless days are asked for. */
const mostDayCells = 2_500;

const dayNumber = (timeMs: number): number => Math.floor(timeMs / dayMs);

interface Span {
  readonly firstMs: number;
  readonly lastMs: number;
}

function spanOf(times: Float64Array, rows: Uint32Array): Span {
  let firstMs = Infinity;
  let lastMs = -Infinity;
  for (let i = 0; i < rows.length; i++) {
    const time = times[rows[i] ?? 0] ?? NaN;
    if (time < firstMs) firstMs = time;
    if (time > lastMs) lastMs = time;
  }
  return { firstMs, lastMs };
}

/** Codes of the groups with most checks due, in the order of their names. */
function groupsKept(due: Float64Array, nameOf: (code: number) => string): { codes: number[]; all: number } {
  const present = Array.from(due.keys()).filter((code) => (due[code] ?? 0) > 0);
  const codes = present.sort((a, b) => (due[b] ?? 0) - (due[a] ?? 0)).slice(0, mostGroups);
  codes.sort((a, b) => (nameOf(a) < nameOf(b) ? -1 : 1));
  return { codes, all: present.length };
}

const [passed, failed, notRequired] = (['passed', 'failed', 'notRequired'] as const).map((state) =>
  checkStates.indexOf(state)
);

interface Checks {
  readonly rows: Uint32Array;
  readonly states: Uint32Array;
  readonly times: Float64Array;
  readonly groupCodes: Uint32Array;
}

function dueByGroup({ rows, states, groupCodes }: Checks, groups: number): Float64Array {
  const due = new Float64Array(groups);
  for (let i = 0; i < rows.length; i++) {
    const row = rows[i] ?? 0;
    if (states[row] === notRequired) continue;
    const code = groupCodes[row] ?? 0;
    due[code] = (due[code] ?? 0) + 1;
  }
  return due;
}

/** Due, done and failed of each cell of place and period, cell by cell. */
function countCells(
  { rows, states, times, groupCodes }: Checks,
  placeOf: Int32Array,
  places: number,
  periods: number,
  periodOf: (timeMs: number) => number
): Uint32Array {
  const counts = new Uint32Array(3 * periods * places);
  for (let i = 0; i < rows.length; i++) {
    const row = rows[i] ?? 0;
    const place = placeOf[groupCodes[row] ?? 0] ?? -1;
    const state = states[row] ?? 0;
    if (place < 0 || state === notRequired) continue;
    const cell = 3 * (place * periods + periodOf(times[row] ?? NaN));
    counts[cell] = (counts[cell] ?? 0) + 1;
    if (state === passed || state === failed) counts[cell + 1] = (counts[cell + 1] ?? 0) + 1;
    if (state === failed) counts[cell + 2] = (counts[cell + 2] ?? 0) + 1;
  }
  return counts;
}

function cellsOf(counts: Uint32Array, periods: number): SampleCell[] {
  const cells: SampleCell[] = [];
  for (let cell = 0; cell < counts.length / 3; cell++) {
    const due = counts[3 * cell] ?? 0;
    if (due === 0) continue;
    cells.push({
      group: Math.floor(cell / periods),
      period: cell % periods,
      due,
      done: counts[3 * cell + 1] ?? 0,
      failed: counts[3 * cell + 2] ?? 0
    });
  }
  return cells;
}

/**
 * How many of the checks due have a result, place by place and day by day (or week by week). A blank is a check due
 * without a result; one that was not required is not due. Days and weeks are UTC.
 */
export function sampleDays(
  context: QuestionContext,
  asked: {
    readonly filter: RecordFilter;
    readonly by: NameFieldName;
    readonly check: CheckFieldName;
    /** `null` takes days where they are few enough to see, else weeks. */
    readonly step: 'day' | 'week' | null;
  }
): SampleDaysAnswer {
  const { columns } = context.ledger.source;
  const grouping = context.group(asked.by);
  const checks: Checks = {
    rows: context.select(asked.filter).rows,
    states: columns.code(asked.check).codes(),
    times: columns.valuesOf('time'),
    groupCodes: grouping.codes
  };
  const kept = groupsKept(dueByGroup(checks, grouping.count), grouping.name);
  if (kept.codes.length === 0) {
    return { step: asked.step ?? 'day', groups: [], periodsMs: [], cells: [], leftOut: 0 };
  }
  const { firstMs, lastMs } = spanOf(checks.times, checks.rows);
  const days = dayNumber(lastMs) - dayNumber(firstMs) + 1;
  const step = asked.step ?? (days * kept.codes.length <= mostDayCells ? 'day' : 'week');
  const numberOf = step === 'day' ? dayNumber : weekNumber;
  const first = numberOf(firstMs);
  const periods = numberOf(lastMs) - first + 1;
  const placeOf = new Int32Array(grouping.count).fill(-1);
  kept.codes.forEach((code, place) => (placeOf[code] = place));
  const counts = countCells(
    checks,
    placeOf,
    kept.codes.length,
    periods,
    (timeMs) => numberOf(timeMs) - first
  );
  return {
    step,
    groups: kept.codes.map(grouping.name),
    periodsMs: Array.from({ length: periods }, (_none, period) =>
      step === 'day' ? (first + period) * dayMs : weekStart(first + period)
    ),
    cells: cellsOf(counts, periods),
    leftOut: kept.all - kept.codes.length
  };
}
