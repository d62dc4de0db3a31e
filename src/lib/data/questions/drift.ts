import {
  adjustedPeriodMeansSteps,
  changeBand,
  ewmaLimitFor,
  ewmaUnequal,
  oneChange,
  filled,
  periodWobble,
  runSteps,
  watchAlarms,
  type CrossedRecords,
  type RobustFit,
  type Steps
} from '#lib/core/statistics/index.ts';
import { weekName, weekStart, type RecordFilter } from '#lib/data/ledger/index.ts';
import { crossedFit, crossedSelection, type CrossedSelection } from './attribution.ts';
import type { QuestionContext } from './context.ts';

/** What is watched: gauges by aircraft, or meters by vehicle. */
export type DriftSubject = 'tail' | 'vehicle';

/** One period of a series. NaN where there was no refuelling. */
export interface DriftPoint {
  readonly period: string;
  /** First instant of the period, ms UTC. */
  readonly startMs: number;
  readonly n: number;
  /** Mean with the other side's effects taken off, %; plus: gauge says more. */
  readonly meanPercent: number;
  readonly errorPercent: number;
  /** Weighted average and its limits for the watch list, % around the centre; NaN in the baseline. */
  readonly averagePercent: number;
  readonly lowerPercent: number;
  readonly upperPercent: number;
}

/** The likeliest single change of level. */
export interface DriftChange {
  readonly pValue: number;
  readonly beforePercent: number;
  readonly afterPercent: number;
  /** Likeliest start of the new level, and the first and last start that fit about as well, ms UTC. */
  readonly atMs: number;
  readonly fromMs: number;
  readonly untilMs: number;
}

export interface DriftSeries {
  readonly name: string;
  readonly refuellings: number;
  /** Centre of the baseline, %. */
  readonly centrePercent: number;
  readonly points: readonly DriftPoint[];
  /** Period of the alarm (false-discovery control over all series), '' for none. */
  readonly alarm: string;
  /** Whether the average is outside its own limits in the newest period that has one. */
  readonly watched: boolean;
  readonly change: DriftChange | null;
}

export type DriftAnswer =
  | { readonly estimable: false; readonly refuellings: number }
  | {
      readonly estimable: true;
      readonly step: 'week' | 'month';
      readonly baselinePeriods: number;
      /** Series long enough to watch. */
      readonly watchedSeries: number;
      /** At most about so many alarms, and so many watch entries, chance alone would give in the periods checked. */
      readonly falseAlarms: number;
      readonly falseWatches: number;
      readonly series: readonly DriftSeries[];
    };

/** Weekly where the usual series has this many refuellings a week, else monthly: common practice, no source. */
const fewestAWeek = 8;
const baselineWeeks = 26;
const baselineMonths = 6;
/**
 * False-discovery share of one check, monthly. While nothing moves a check names somebody with at most this chance, so
 * weekly checks take a smaller share each: the budget of a year stays the same, at most about 1.2.
 */
const monthlyFalseShare = 0.1;
const checksAYear = { month: 12, week: 52 } as const;
/** Periods between false entries of one series on the watch list. */
const watchRunLength = 1_000;
const weight = 0.2;
/** A series with fewer refuellings in all is not watched. */
const fewestInSeries = 100;

interface Periods {
  readonly step: 'week' | 'month';
  readonly code: Int32Array;
  readonly count: number;
  readonly name: (period: number) => string;
  readonly startMs: (period: number) => number;
  readonly baseline: number;
}

function* periodsOf(context: QuestionContext, records: CrossedSelection, series: number): Steps<Periods> {
  const weeks = context.group('week');
  const perWeek = records.rows.length / Math.max(1, series) / Math.max(1, weeks.count - 1);
  const step = perWeek >= fewestAWeek ? 'week' : 'month';
  const grouping = step === 'week' ? weeks : context.group('month');
  // Period 0 of a series is code 1 of the grouping.
  const { rows } = records;
  const code = yield* filled(new Int32Array(rows.length), (k) => (grouping.codes[rows[k] ?? -1] ?? 0) - 1);
  const startMs =
    step === 'week'
      ? (period: number) => weekStart(numberOfWeek(grouping.name(period + 1)))
      : (period: number) => Date.parse(`${grouping.name(period + 1)}-01`);
  return {
    step,
    code,
    count: grouping.count - 1,
    name: (period) => grouping.name(period + 1),
    startMs,
    baseline: Math.min(step === 'week' ? baselineWeeks : baselineMonths, Math.floor((grouping.count - 1) / 3))
  };
}

/** The week a name stands for: the inverse of `weekName`, by the Thursday rule. */
function numberOfWeek(name: string): number {
  const [year = NaN, week = NaN] = name.split('-W').map(Number);
  const near = Math.floor((Date.UTC(year, 0, 4) / 86_400_000 + 3) / 7) + week - 1;
  for (const number of [near, near - 1, near + 1]) if (weekName(number) === name) return number;
  return near;
}

/** Records and fit with the watched side first. */
function turned(
  subject: DriftSubject,
  records: CrossedSelection,
  fit: RobustFit
): { records: CrossedRecords; fit: Pick<RobustFit, 'mean' | 'sigma' | 'a' | 'b'> } {
  if (subject === 'tail') return { records, fit };
  return {
    records: { a: records.b, b: records.a, y: records.y },
    fit: { mean: fit.mean, sigma: fit.sigma, a: fit.b, b: fit.a }
  };
}

interface Row {
  readonly level: number;
  readonly means: Float64Array;
  readonly variances: Float64Array;
  readonly counts: Int32Array;
  readonly refuellings: number;
}

/** Weighted mean of the baseline and its variance. */
function centreOf(row: Row, baseline: number): { centre: number; variance: number } {
  let sum = 0;
  let weights = 0;
  for (let t = 0; t < baseline; t++) {
    const w = 1 / (row.variances[t] ?? NaN);
    if (Number.isNaN(row.means[t] ?? NaN) || !(w > 0)) continue;
    sum += w * (row.means[t] ?? 0);
    weights += w;
  }
  return { centre: sum / weights, variance: 1 / weights };
}

function changeOf(row: Row, periods: Periods): DriftChange | null {
  const usable = row.variances.filter((variance) => variance > 0);
  if (usable.length < 8) return null;
  const sigma = Math.sqrt(usable.reduce((sum, variance) => sum + variance, 0) / usable.length);
  const change = oneChange(row.means, sigma);
  const band = changeBand(row.means, sigma);
  if (!change.estimable || band === null) return null;
  return {
    pValue: change.pValue,
    beforePercent: change.meanBefore,
    afterPercent: change.meanAfter,
    atMs: periods.startMs(change.index),
    fromMs: periods.startMs(band.first),
    untilMs: periods.startMs(band.last)
  };
}

function* rowsOf(
  subject: DriftSubject,
  records: CrossedSelection,
  fit: RobustFit,
  periods: Periods
): Steps<{ rows: Row[]; wobble: number }> {
  const side = turned(subject, records, fit);
  const { robustWeight, precisionWeight } = fit;
  const weights = yield* filled(
    new Float64Array(robustWeight.length),
    (k) => (robustWeight[k] ?? NaN) * (precisionWeight[k] ?? NaN)
  );
  const plain = yield* adjustedPeriodMeansSteps(side.records, periods.code, periods.count, side.fit, {
    weights
  });
  const levels = side.fit.a.effect.length;
  const cut = <T extends Float64Array | Int32Array>(values: T, level: number) =>
    values.slice(level * periods.count, (level + 1) * periods.count) as T;
  const kept = Array.from({ length: levels }, (_none, level) => level).filter(
    (level) => (side.fit.a.records[level] ?? 0) >= fewestInSeries
  );
  // Real movement from period to period is pooled over all series: without it large ones alarm for ever.
  const pooled = periodWobble(
    kept.map((level) => {
      const variances = cut(plain.variance, level);
      // Counts that stand for the precision a period really has, small refuellings weighing less.
      return {
        means: cut(plain.mean, level),
        counts: variances.map((variance) => fit.sigma ** 2 / variance)
      };
    }),
    fit.sigma ** 2
  );
  const wobble = pooled.estimable ? pooled.variance : 0;
  const rows = kept.map((level) => ({
    level,
    means: cut(plain.mean, level),
    variances: cut(plain.variance, level).map((variance) => variance + wobble),
    counts: cut(plain.records, level),
    refuellings: side.fit.a.records[level] ?? 0
  }));
  return { rows, wobble };
}

/** Which gauges or meters move, since when, and how far the list may be wrong. */
export function drift(
  context: QuestionContext,
  asked: { readonly filter: RecordFilter; readonly subject: DriftSubject }
): DriftAnswer {
  return runSteps(driftSteps(context, asked));
}

/** The same in steps. */
export function* driftSteps(
  context: QuestionContext,
  asked: { readonly filter: RecordFilter; readonly subject: DriftSubject }
): Steps<DriftAnswer> {
  const records = yield* crossedSelection(context, asked.filter);
  const fit = yield* crossedFit(context, asked.filter, records);
  if (!fit.estimable) return { estimable: false, refuellings: records.rows.length };
  const factor = asked.subject === 'tail' ? fit.a : fit.b;
  const large = factor.records.filter((count) => count >= fewestInSeries).length;
  const periods = yield* periodsOf(context, records, large);
  const { rows } = yield* rowsOf(asked.subject, records, fit, periods);
  const limit = ewmaLimitFor(weight, watchRunLength);
  yield;
  const charts: { row: Row; centre: number; chart: ReturnType<typeof ewmaUnequal> }[] = [];
  for (const row of rows) {
    const { centre, variance } = centreOf(row, periods.baseline);
    const means = row.means.slice(periods.baseline);
    const variances = row.variances.slice(periods.baseline);
    charts.push({
      row,
      centre,
      chart: ewmaUnequal(means, variances, { centre, weight, limit, centreVariance: variance })
    });
    yield;
  }
  const checked = periods.count - periods.baseline;
  const falseShare = (monthlyFalseShare * checksAYear.month) / checksAYear[periods.step];
  const zScores = Array.from({ length: checked }, (_none, t) =>
    Float64Array.from(charts, ({ row, chart }) =>
      Number.isNaN(row.means[periods.baseline + t] ?? NaN) ? NaN : (chart.zScore[t] ?? NaN)
    )
  );
  const alarms = charts.length === 0 ? new Int32Array(0) : watchAlarms(zScores, falseShare);
  const name = context.ledger.source.columns.code(asked.subject).dictionary;
  yield;
  const series: DriftSeries[] = [];
  for (const [i, { row, centre, chart }] of charts.entries()) {
    const alarm = alarms[i] ?? -1;
    const last = chart.signals.at(-1) ?? -1;
    series.push({
      name: name.text(row.level),
      refuellings: row.refuellings,
      centrePercent: centre,
      points: Array.from({ length: periods.count }, (_none, t): DriftPoint => {
        const at = t - periods.baseline;
        return {
          period: periods.name(t),
          startMs: periods.startMs(t),
          n: row.counts[t] ?? 0,
          meanPercent: row.means[t] ?? NaN,
          errorPercent: Math.sqrt(row.variances[t] ?? NaN),
          averagePercent: at < 0 ? NaN : (chart.average[at] ?? NaN),
          lowerPercent: at < 0 ? NaN : (chart.lower[at] ?? NaN),
          upperPercent: at < 0 ? NaN : (chart.upper[at] ?? NaN)
        };
      }),
      alarm: alarm < 0 ? '' : periods.name(periods.baseline + alarm),
      watched: last === checked - 1,
      change: changeOf(row, periods)
    });
    yield;
  }
  return {
    estimable: true,
    step: periods.step,
    baselinePeriods: periods.baseline,
    watchedSeries: series.length,
    falseAlarms: charts.length === 0 ? 0 : falseShare * checked,
    falseWatches: (series.length * checked) / watchRunLength,
    series: series.sort((p, q) => (p.name < q.name ? -1 : 1))
  };
}
