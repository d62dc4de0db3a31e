import {
  changeBand,
  medianAbsoluteDeviation,
  median,
  noiseFromDifferences,
  oneChange
} from '#lib/core/statistics/index.ts';
import { weekStart, weekNumber, type RecordFilter } from '#lib/data/ledger/index.ts';
import { compareAround, type BeforeAfterAnswer } from './before-after.ts';
import type { QuestionContext } from './context.ts';

/** One week at one place. */
export interface DensityWeek {
  readonly startMs: number;
  /** Tickets with a density at 15 degC. */
  readonly n: number;
  /** Mean at 15 degC, kg/m3, and the standard deviation among its tickets; NaN below the fewest tickets. */
  readonly meanKgM3: number;
  readonly spreadKgM3: number;
}

/** The likeliest single step of the density of one supplier at one station. */
export interface DensityStep {
  /** After less before, of the weeks next to the step, kg/m3 at 15 degC. */
  readonly byKgM3: number;
  readonly beforeKgM3: number;
  readonly afterKgM3: number;
  /** Chance of so clear a step in a series without one. */
  readonly pValue: number;
  /** Likeliest first week of the new level, and the first and last that fit about as well, ms UTC. */
  readonly atMs: number;
  readonly fromMs: number;
  readonly untilMs: number;
  /** Clear, and large enough to be somebody's work. */
  readonly isClear: boolean;
  /** The discrepancy of the same refuellings around it, with the same aircraft. */
  readonly discrepancy: BeforeAfterAnswer;
  /** What the discrepancy would move by if the fuel were the same and only the density on the ticket had changed, %. */
  readonly ifWrittenPercent: number;
  /** Whether it moved: with the step, not, or cannot be told. */
  readonly moved: 'moved' | 'unmoved' | 'unknown';
}

export interface DensitySeries {
  readonly station: string;
  readonly supplier: string;
  readonly tickets: number;
  readonly weeks: readonly DensityWeek[];
  readonly step: DensityStep | null;
}

export interface DensityStepsAnswer {
  readonly series: readonly DensitySeries[];
  /** Series long enough to be searched for a step. */
  readonly searched: number;
  /** Days compared on each side of a step. */
  readonly windowDays: number;
}

const dayMs = 86_400_000;
const weekMs = 7 * dayMs;
/** Tickets below which a week has no mean, and weeks below which a series is not searched. */
const fewestTickets = 3;
const fewestWeeks = 20;
const windowWeeks = 8;
/** A step below this is within what batches of one refinery differ by: the certificate tolerance, secondary source. */
const leastStepKgM3 = 3;
const clearChance = 0.01;
/** A discrepancy that moves by less than this is nobody's work: common practice, no source. */
const leastMovePercent = 0.3;

interface Cells {
  readonly n: Float64Array;
  readonly mean: Float64Array;
  readonly squares: Float64Array;
}

interface Place {
  readonly key: number;
  readonly station: number;
  readonly supplier: number;
  tickets: number;
  readonly refuellings: number[];
}

interface Collected {
  readonly places: Place[];
  readonly cells: Map<number, Cells>;
  readonly firstWeek: number;
  readonly weeks: number;
}

function weeksOf(times: Float64Array, rows: Uint32Array): { firstWeek: number; weeks: number } {
  let first = Infinity;
  let last = -Infinity;
  for (let i = 0; i < rows.length; i++) {
    const time = times[rows[i] ?? 0] ?? NaN;
    if (time < first) first = time;
    if (time > last) last = time;
  }
  if (!(last >= first)) return { firstWeek: 0, weeks: 0 };
  return { firstWeek: weekNumber(first), weeks: weekNumber(last) - weekNumber(first) + 1 };
}

/** Density by place and week, mean and squares about it in one pass (Welford). */
function collect(context: QuestionContext, filter: RecordFilter): Collected {
  const { rows } = context.select(filter);
  const { computed, source } = context.ledger;
  const { leader } = computed;
  const station = source.columns.code('station').codes();
  const suppliers = source.columns.code('supplier');
  const supplier = suppliers.codes();
  const times = source.columns.valuesOf('time');
  const { firstWeek, weeks } = weeksOf(times, rows);
  const places = new Map<number, Place>();
  const cells = new Map<number, Cells>();
  for (let i = 0; i < rows.length; i++) {
    const row = rows[i] ?? 0;
    const density = computed.density15KgM3[row] ?? NaN;
    const key = (station[row] ?? 0) * suppliers.dictionary.size + (supplier[row] ?? 0);
    let place = places.get(key);
    let cell = cells.get(key);
    if (place === undefined || cell === undefined) {
      place = { key, station: station[row] ?? 0, supplier: supplier[row] ?? 0, tickets: 0, refuellings: [] };
      cell = {
        n: new Float64Array(weeks),
        mean: new Float64Array(weeks),
        squares: new Float64Array(weeks)
      };
      places.set(key, place);
      cells.set(key, cell);
    }
    if (leader[row] === row) place.refuellings.push(row);
    if (Number.isNaN(density)) continue;
    const week = weekNumber(times[row] ?? NaN) - firstWeek;
    const n = (cell.n[week] ?? 0) + 1;
    const off = density - (cell.mean[week] ?? 0);
    const mean = (cell.mean[week] ?? 0) + off / n;
    cell.n[week] = n;
    cell.mean[week] = mean;
    cell.squares[week] = (cell.squares[week] ?? 0) + off * (density - mean);
    place.tickets++;
  }
  return { places: [...places.values()], cells, firstWeek, weeks };
}

function weekOf(cell: Cells, week: number, firstWeek: number): DensityWeek {
  const n = cell.n[week] ?? 0;
  const isEnough = n >= fewestTickets;
  return {
    startMs: weekStart(firstWeek + week),
    n,
    meanKgM3: isEnough ? (cell.mean[week] ?? NaN) : NaN,
    spreadKgM3: isEnough ? Math.sqrt((cell.squares[week] ?? NaN) / (n - 1)) : NaN
  };
}

/** Mean over the present weeks of [from, to). */
function levelOf(weeks: readonly DensityWeek[], from: number, to: number): number {
  const means = weeks
    .slice(Math.max(0, from), to)
    .map(({ meanKgM3 }) => meanKgM3)
    .filter((mean) => !Number.isNaN(mean));
  return means.reduce((sum, mean) => sum + mean, 0) / means.length;
}

/** Whether the interval of the discrepancy says that it moved the way a wrongly written density would move it. */
function movedOf(discrepancy: BeforeAfterAnswer, ifWrittenPercent: number): DensityStep['moved'] {
  if (!discrepancy.estimable) return 'unknown';
  const { lowerPercent, upperPercent, differencePercent } = discrepancy;
  const holdsNothing = lowerPercent <= 0 && upperPercent >= 0;
  const isSmall = Math.abs(differencePercent) < leastMovePercent;
  if (!holdsNothing && !isSmall) return 'moved';
  const holdsWritten = lowerPercent <= ifWrittenPercent && upperPercent >= ifWrittenPercent;
  return holdsWritten ? 'unknown' : 'unmoved';
}

/**
 * The noise of a series as eight weeks beside eight weeks see it: batches last longer than a week and seasons turn, so
 * the differences of neighbours alone would call either a step. From the robust spread of all such differences.
 */
function slowNoise(weeks: readonly DensityWeek[]): number {
  const jumps = weeks
    .map((_week, at) => levelOf(weeks, at, at + windowWeeks) - levelOf(weeks, at - windowWeeks, at))
    .slice(windowWeeks, weeks.length - windowWeeks);
  return medianAbsoluteDeviation(jumps) * Math.sqrt(windowWeeks / 2);
}

function stepOf(
  context: QuestionContext,
  place: Place,
  weeks: readonly DensityWeek[],
  searched: number,
  usualNoise: number
): DensityStep | null {
  const means = Float64Array.from(weeks, ({ meanKgM3 }) => meanKgM3);
  const sigma = Math.max(noiseFromDifferences(means), slowNoise(weeks), usualNoise);
  if (!(sigma > 0)) return null;
  const change = oneChange(means, sigma);
  const band = changeBand(means, sigma);
  if (!change.estimable || band === null) return null;
  const beforeKgM3 = levelOf(weeks, band.first - windowWeeks, band.first);
  const afterKgM3 = levelOf(weeks, band.last, band.last + windowWeeks);
  const byKgM3 = afterKgM3 - beforeKgM3;
  const startOf = (week: number) => weeks[week]?.startMs ?? NaN;
  const isClear = change.pValue < clearChance / searched && Math.abs(byKgM3) >= leastStepKgM3;
  const discrepancy = compareAround(context, Uint32Array.from(place.refuellings), 'tail', {
    fromMs: startOf(band.first) - windowWeeks * weekMs,
    eventMs: startOf(band.first),
    resumeMs: startOf(band.last),
    untilMs: startOf(band.last) + windowWeeks * weekMs
  });
  const ifWrittenPercent = (-100 * byKgM3) / afterKgM3;
  return {
    byKgM3,
    beforeKgM3,
    afterKgM3,
    pValue: change.pValue,
    atMs: startOf(change.index),
    fromMs: startOf(band.first),
    untilMs: startOf(band.last),
    isClear,
    discrepancy,
    ifWrittenPercent,
    moved: movedOf(discrepancy, ifWrittenPercent)
  };
}

/**
 * Steps of the density at 15 degC by station and supplier, week by week, each with its date and with whether the
 * discrepancy moved with it at the same place and with the same aircraft. A season is no step: the levels compared are
 * those of the eight weeks on either side.
 */
export function densitySteps(
  context: QuestionContext,
  asked: { readonly filter: RecordFilter }
): DensityStepsAnswer {
  const { places, cells, firstWeek, weeks: count } = collect(context, asked.filter);
  const { columns } = context.ledger.source;
  const series = places.map((place) => {
    const cell = cells.get(place.key);
    const weeks =
      cell === undefined ? [] : Array.from({ length: count }, (_none, week) => weekOf(cell, week, firstWeek));
    return { place, weeks, present: weeks.filter(({ meanKgM3 }) => !Number.isNaN(meanKgM3)).length };
  });
  const long = series.filter(({ present }) => present >= fewestWeeks);
  const searched = long.length;
  const usualNoise = median(long.map(({ weeks }) => slowNoise(weeks)));
  const named = series.map(({ place, weeks, present }): DensitySeries => ({
    station: columns.code('station').dictionary.text(place.station),
    supplier: columns.code('supplier').dictionary.text(place.supplier),
    tickets: place.tickets,
    weeks,
    step: present >= fewestWeeks ? stepOf(context, place, weeks, searched, usualNoise) : null
  }));
  named.sort((p, q) => (p.station + p.supplier < q.station + q.supplier ? -1 : 1));
  return { series: named, searched, windowDays: windowWeeks * 7 };
}
