import {
  ewma,
  ewmaLimitFor,
  gapLimits,
  gapTransform,
  gapTransformMoments,
  openGapProbability,
  timeGapLimits,
  type CountGapLimits,
  type TimeGapLimits
} from '#lib/core/statistics/index.ts';
import { checkStates, type CheckFieldName } from '#lib/data/record/index.ts';
import type { RecordFilter } from '#lib/data/ledger/index.ts';
import type { QuestionContext } from './context.ts';

/** The stretch that ends with one failure. */
export interface SampleGap {
  /** When and where the failure was, ms UTC. */
  readonly timeMs: number;
  readonly station: string;
  /** Checks passed since the failure before it, and days since then. */
  readonly checks: number;
  readonly days: number;
  /** The weighted average of the gaps up to here lies below its limit: failures come faster than the pace. */
  readonly fast: boolean;
}

/** Failures that came faster than the pace, one after the other. */
export interface FailureRun {
  readonly fromMs: number;
  readonly untilMs: number;
  /** Failures of the run, and how many its checks would have had at the pace. */
  readonly failed: number;
  readonly expected: number;
}

/** What a gap is expected to be. */
export interface SamplePace {
  /** All other places together where the filter names some, else the gaps themselves. */
  readonly from: 'others' | 'own';
  readonly failed: number;
  readonly results: number;
  /** Mean checks passed between failures at that pace, and the days they take in the selection. */
  readonly meanChecks: number;
  readonly meanDays: number;
}

export interface SampleGapsAnswer {
  readonly check: CheckFieldName;
  readonly results: number;
  readonly failed: number;
  /** First and last check with a result, ms UTC; NaN where there is none. */
  readonly fromMs: number;
  readonly untilMs: number;
  /** From the second failure on: nobody knows when the stretch before the first one began. */
  readonly gaps: readonly SampleGap[];
  /** Runs of short gaps that the weighted average names, each from the failure that begins it. */
  readonly runs: readonly FailureRun[];
  /** Since the last failure, still running; null without a failure. */
  readonly open: { readonly checks: number; readonly days: number } | null;
  /** Null where there are too few failures to know a pace. */
  readonly pace: SamplePace | null;
  /** Probability limits of one gap at the pace, in checks. */
  readonly limits: CountGapLimits | null;
  /** The same in days. */
  readonly dayLimits: TimeGapLimits | null;
  /** Chance that the open gap lasts at least as long as it does at the pace; NaN where there is none. */
  readonly openChance: number;
  /** One false signal of the weighted average in so many failures. */
  readonly runLength: number;
}

const dayMs = 86_400_000;
/** Fewer failures than this tell no pace: common practice, no source. */
const fewestForPace = 5;
/** The average of one series: as rarely wrong as a chart with three-sigma limits. */
const runLength = 370;
const weight = 0.2;

interface Results {
  /** Times of all checks with a result, and of the failures among them, both ascending; rows of the failures. */
  readonly timesMs: Float64Array;
  readonly failures: readonly { readonly row: number; readonly timeMs: number }[];
}

function resultsOf(context: QuestionContext, rows: Uint32Array, check: CheckFieldName): Results {
  const { columns } = context.ledger.source;
  const states = columns.code(check).codes();
  const times = columns.valuesOf('time');
  const [passed, failed] = [checkStates.indexOf('passed'), checkStates.indexOf('failed')];
  const timesMs = new Float64Array(rows.length);
  const failures: { row: number; timeMs: number }[] = [];
  let n = 0;
  for (let i = 0; i < rows.length; i++) {
    const row = rows[i] ?? 0;
    const state = states[row];
    const timeMs = times[row] ?? NaN;
    if ((state !== passed && state !== failed) || Number.isNaN(timeMs)) continue;
    timesMs[n++] = timeMs;
    if (state === failed) failures.push({ row, timeMs });
  }
  failures.sort((p, q) => p.timeMs - q.timeMs || p.row - q.row);
  return { timesMs: timesMs.subarray(0, n).sort(), failures };
}

/** How many ascending times are at or before an instant. */
function countUntil(times: Float64Array, timeMs: number): number {
  let low = 0;
  let high = times.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((times[middle] ?? 0) <= timeMs) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** Failures and results of all records of the same days outside the names that the filter asks for. */
function othersOf(context: QuestionContext, filter: RecordFilter, check: CheckFieldName, own: Results) {
  const { names: _names, ...wide } = filter;
  const all = resultsOf(context, context.select(wide).rows, check);
  return {
    failed: all.failures.length - own.failures.length,
    results: all.timesMs.length - own.timesMs.length
  };
}

function paceOf(
  context: QuestionContext,
  filter: RecordFilter,
  check: CheckFieldName,
  own: Results
): SamplePace | null {
  const named = Object.values(filter.names ?? {}).some((names) => names.length > 0);
  const others = named ? othersOf(context, filter, check, own) : { failed: 0, results: 0 };
  const from = others.failed >= fewestForPace ? 'others' : 'own';
  const counted = from === 'others' ? others : { failed: own.failures.length, results: own.timesMs.length };
  if (counted.failed < fewestForPace || counted.results === counted.failed) return null;
  const meanChecks = (counted.results - counted.failed) / counted.failed;
  const daysInAll = ((own.timesMs.at(-1) ?? NaN) - (own.timesMs[0] ?? NaN)) / dayMs;
  return { from, ...counted, meanChecks, meanDays: (meanChecks * daysInAll) / own.timesMs.length };
}

/** Which gaps the average of, made nearly normal, says are too short together. */
function fastGaps(checks: readonly number[], pace: SamplePace | null): ReadonlySet<number> {
  if (pace === null) return new Set();
  const { mean, sd } = gapTransformMoments(pace.meanChecks);
  const chart = ewma(checks.map(gapTransform), sd, {
    centre: mean,
    weight,
    limit: ewmaLimitFor(weight, runLength)
  });
  return new Set(chart.signals.filter((t) => (chart.average[t] ?? NaN) < mean));
}

/**
 * Runs that end in gaps named as too short: from the failure before the first gap of an unbroken stretch below the
 * middle one, since the average itself answers late.
 */
function runsOf(
  gaps: readonly SampleGap[],
  firstMs: number,
  limits: CountGapLimits | null,
  probability: number
): FailureRun[] {
  const runs: FailureRun[] = [];
  const isShort = (i: number) => limits !== null && (gaps[i]?.checks ?? NaN) < limits.centre;
  for (let i = 0; i < gaps.length;) {
    let end = i;
    let named = -1;
    while (isShort(end)) {
      if (gaps[end]?.fast === true) named = end;
      end++;
    }
    if (named >= 0) {
      const members = gaps.slice(i, named + 1);
      const failed = members.length + 1;
      const checks = members.reduce((sum, gap) => sum + gap.checks, failed);
      runs.push({
        fromMs: gaps[i - 1]?.timeMs ?? firstMs,
        untilMs: gaps[named]?.timeMs ?? NaN,
        failed,
        expected: checks * probability
      });
    }
    i = end + 1;
  }
  return runs;
}

/**
 * Rare failures of one check as the gaps between them, in checks passed and in days, against the pace of all other
 * places: probability limits of one gap (g chart), and a weighted average for runs of short ones, which a single gap
 * cannot show.
 */
export function sampleGaps(
  context: QuestionContext,
  asked: { readonly filter: RecordFilter; readonly check: CheckFieldName }
): SampleGapsAnswer {
  const own = resultsOf(context, context.select(asked.filter).rows, asked.check);
  const station = context.ledger.source.columns.code('station');
  const pace = paceOf(context, asked.filter, asked.check, own);
  const until = own.failures.map(({ timeMs }) => countUntil(own.timesMs, timeMs));
  const checks = until.slice(1).map((count, i) => Math.max(0, count - (until[i] ?? 0) - 1));
  const fast = fastGaps(checks, pace);
  const last = own.failures.at(-1);
  const untilMs = own.timesMs.at(-1) ?? NaN;
  const open =
    last === undefined
      ? null
      : { checks: own.timesMs.length - (until.at(-1) ?? 0), days: (untilMs - last.timeMs) / dayMs };
  const chance = open === null || pace === null ? null : openGapProbability(open.checks, pace.meanChecks);
  const limits = pace === null ? null : gapLimits(pace.meanChecks);
  const gaps = own.failures.slice(1).map(({ row, timeMs }, i) => ({
    timeMs,
    station: station.text(row),
    checks: checks[i] ?? NaN,
    days: (timeMs - (own.failures[i]?.timeMs ?? NaN)) / dayMs,
    fast: fast.has(i)
  }));
  return {
    check: asked.check,
    results: own.timesMs.length,
    failed: own.failures.length,
    fromMs: own.timesMs[0] ?? NaN,
    untilMs,
    gaps,
    runs: runsOf(gaps, own.failures[0]?.timeMs ?? NaN, limits, limits?.probability ?? NaN),
    open,
    pace,
    limits,
    dayLimits: pace === null ? null : timeGapLimits(pace.meanDays),
    openChance: chance?.estimable === true ? chance.probability : NaN,
    runLength
  };
}
