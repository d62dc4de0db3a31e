import { formatCount, formatNumber, type NumberForm } from './format.ts';
import { figure, toneOf, words, type Cell, type MarkKind, type Twin } from './twin.ts';

export interface SeriesPoint {
  key: string;
  /** The period or place in words: "20x1-W24". */
  label: string;
  /** Milliseconds UTC, or a plain number. */
  x: number;
  /** NaN breaks the line and draws no mark. */
  value: number;
  mark: MarkKind;
  /** The mark in words. */
  word: string;
  n?: number;
  low?: number;
  high?: number;
}

export interface SeriesLine {
  key: string;
  label: string;
  points: readonly SeriesPoint[];
}

/** A limit that holds over stretches of x; one stretch for a constant. */
export interface LimitLine {
  key: string;
  label: string;
  stretches: readonly { from: number; to: number; value: number }[];
  /** Short dashes, for the inner or the wider pair. */
  short?: boolean;
}

export interface EventMark {
  key: string;
  x: number;
  label: string;
}

/** When a change began: the likeliest place and the stretch that holds it. */
export interface ChangeBand {
  from: number;
  to: number;
  at: number;
  label: string;
}

export interface SeriesWords {
  /** What a point is: "Week". */
  period: string;
  /** What is drawn, and its unit. */
  value: string;
  unit: string;
  form: NumberForm;
  /** What is counted per point; no column without it. */
  n?: string;
}

/** The limit's value at x; NaN where it does not hold. */
export function limitAt(limit: LimitLine, x: number): number {
  return limit.stretches.find((stretch) => x >= stretch.from && x <= stretch.to)?.value ?? NaN;
}

/** A point in one line of words, as read out. */
export function seriesLine(point: SeriesPoint, names: SeriesWords): string {
  const value = `${formatNumber(point.value, names.form)}\u2009${names.unit}`;
  const interval =
    point.low === undefined || point.high === undefined
      ? ''
      : `, interval ${formatNumber(point.low, names.form)} to ${formatNumber(point.high, names.form)}`;
  const n = names.n === undefined || point.n === undefined ? '' : `, ${formatCount(point.n)} ${names.n}`;
  return `${point.label}: ${value}${interval}${n}; ${point.word}`;
}

/** The index of the last point at or before an event; the first point for an earlier event. */
export function pointOfEvent(points: readonly SeriesPoint[], x: number): number {
  const after = points.findIndex((point) => point.x > x);
  return after < 0 ? points.length - 1 : Math.max(0, after - 1);
}

/**
 * The table twin of a series chart: one row a point of each line, each limit's value at it, and the events that fall on
 * it or after it and before the next point of the first line.
 */
export function seriesTwin(
  lines: readonly SeriesLine[],
  limits: readonly LimitLine[],
  events: readonly EventMark[],
  names: SeriesWords,
  caption: string
): Twin {
  const main = lines[0]?.points ?? [];
  const eventsOf = new Map<string, string[]>();
  for (const event of events) {
    const key = main[pointOfEvent(main, event.x)]?.key;
    if (key !== undefined) eventsOf.set(key, [...(eventsOf.get(key) ?? []), event.label]);
  }
  const number = (value: number): Cell => figure(value, formatNumber(value, { missing: '', ...names.form }));
  return {
    caption,
    columns: [
      { key: 'period', label: names.period },
      ...(lines.length > 1 ? [{ key: 'series', label: 'Series' }] : []),
      ...(names.n === undefined ? [] : [{ key: 'n', label: names.n, kind: 'number' as const }]),
      { key: 'value', label: names.value, unit: names.unit, kind: 'number' },
      ...limits.map((limit) => ({
        key: limit.key,
        label: limit.label,
        unit: names.unit,
        kind: 'number' as const
      })),
      { key: 'mark', label: 'Mark' },
      ...(events.length > 0 ? [{ key: 'event', label: 'Event', kind: 'words' as const }] : [])
    ],
    rows: lines.flatMap((line, lineIndex) =>
      line.points.map((point) => ({
        key: point.key,
        cells: [
          { text: point.label, sort: point.x },
          ...(lines.length > 1 ? [words(line.label)] : []),
          ...(names.n === undefined ? [] : [figure(point.n ?? NaN, formatCount(point.n ?? NaN, ''))]),
          { ...number(point.value), tone: names.form.signed === true ? toneOf(point.value) : 'none' },
          ...limits.map((limit) => number(limitAt(limit, point.x))),
          { text: point.word, mark: point.mark },
          ...(events.length > 0
            ? [words(lineIndex === 0 ? (eventsOf.get(point.key) ?? []).join('; ') : '')]
            : [])
        ]
      }))
    )
  };
}

/** Runs of points with a value, for a line that breaks where one is missing. */
export function unbroken(points: readonly SeriesPoint[]): SeriesPoint[][] {
  const runs: SeriesPoint[][] = [];
  let run: SeriesPoint[] = [];
  for (const point of points) {
    if (Number.isFinite(point.value)) {
      if (run.length === 0) runs.push(run);
      run.push(point);
    } else if (run.length > 0) run = [];
  }
  return runs;
}
