import { causeCodes, causeFacts, causeOutcomes, type CauseCode } from '#lib/core/causes/index.ts';
import { newcombeDifference, poissonExact, runSteps, type Steps } from '#lib/core/statistics/index.ts';
import { fieldsOfKind, type CheckFieldName, type NameFieldName } from '#lib/data/record/index.ts';
import type { RecordFilter } from '#lib/data/ledger/index.ts';
import { attributionSteps, type Effect } from './attribution.ts';
import type { QuestionContext } from './context.ts';
import { densityFindings, type DensityStepped } from './density-findings.ts';
import { density } from './density.ts';
import { fewestForVerdict } from './discrepancy.ts';
import { driftSteps, type DriftSeries, type DriftSubject } from './drift.ts';
import { eventFindings, type ScatterChanged } from './event-findings.ts';
import { stationsOfVehicles } from './findings/stations-of-vehicles.ts';
import { notYetSaid, wholeGroups, type WholeGroup } from './findings/whole-groups.ts';
import { funnels } from './funnels.ts';
import { samples } from './samples.ts';

/** What is said of one aircraft, vehicle or station, as numbers; the page makes the sentence. */
interface Said {
  readonly field: NameFieldName;
  readonly name: string;
  /** Refuellings or tickets it rests on. */
  readonly n: number;
  /** How far it is from what nobody would look at, as a multiple: the order of the list. */
  readonly strength: number;
}

/** A level that moved, %, with the stretch its change lies in. Several vehicles of one station move as one. */
export interface Moved extends Said {
  readonly kind: 'moved';
  readonly together: number;
  readonly byPercent: number;
  readonly fromMs: number;
  readonly untilMs: number;
  /** False where no single change of level stands out: the stretch then says little. */
  readonly dated: boolean;
}

/** A level that stands off, %, all the time. */
export interface StandsOff extends Said {
  readonly kind: 'standsOff';
  readonly together: number;
  readonly effect: number;
  readonly error: number;
}

/** More refuellings outside limits than those of the same types, sizes and seasons have. */
export interface RateAbove extends Said {
  readonly kind: 'rateAbove';
  readonly outside: number;
  readonly slips: number;
  readonly expected: number;
  /** Outside over expected, with its exact 95 % Poisson interval. */
  readonly ratio: number;
  readonly lower: number;
  readonly upper: number;
}

/** One density typed again and again. */
export interface OneDensity extends Said {
  readonly kind: 'oneDensity';
  readonly share: number;
  readonly valueKgM3: number;
}

/** Sample failures above those of all together. */
export interface Failures extends Said {
  readonly kind: 'failures';
  readonly check: CheckFieldName;
  readonly failed: number;
  readonly rate: number;
  readonly lower: number;
  readonly upper: number;
  readonly allRate: number;
}

/** Checks recorded less often than before. */
export interface CoverageFell extends Said {
  readonly kind: 'coverageFell';
  readonly check: CheckFieldName;
  readonly before: number;
  readonly after: number;
  readonly lower: number;
  readonly upper: number;
}

/** Slips of one kind in one place. */
export interface Slips extends Said {
  readonly kind: 'slips';
  readonly cause: CauseCode;
  readonly fromMs: number;
  readonly untilMs: number;
}

export type Finding =
  | Moved
  | StandsOff
  | RateAbove
  | OneDensity
  | DensityStepped
  | ScatterChanged
  | Failures
  | CoverageFell
  | Slips
  | WholeGroup;

export interface FindingsAnswer {
  readonly findings: readonly Finding[];
  /** What would fit whole groups, those of which another finding is made among them. */
  readonly wholeGroups: readonly WholeGroup[];
  /** Series watched for movement, and at most about so many of the moves named chance alone would give. */
  readonly watched: number;
  readonly falseMoves: number;
  readonly step: 'week' | 'month';
  /** How many places were held against the rest, for rates and failures. */
  readonly compared: number;
}

/** Sizes below these are nobody's work: common practice, no source. */
const leastMovePercent = 0.3;
/** A gauge that says more is the side to fear: the aircraft may hold less than it shows. */
const gaugeFirst = 2;
/** Chance of so clear a change in an unchanged series, below which it is dated. */
const clearChange = 0.01;
const leastCoverageFall = 0.05;
const fewestSlips = 5;
const repeatedShare = 0.5;
/** Vehicles of one station that move together are one finding from so many, and from this share of them. */
const fewestTogether = 3;
const shareTogether = 0.6;

/** Things said in one: of a whole station, or of one vehicle (station null). */
interface Common<T> {
  readonly station: string | null;
  readonly members: readonly T[];
}

/** Things of vehicles, those of one station made one where nearly all its vehicles have them. */
function together<T extends { readonly name: string }>(
  named: readonly T[],
  all: readonly { readonly name: string }[],
  stationOf: ReadonlyMap<string, string>
): Common<T>[] {
  const byStation = new Map<string, T[]>();
  for (const each of named) {
    const station = stationOf.get(each.name) ?? '';
    byStation.set(station, [...(byStation.get(station) ?? []), each]);
  }
  return [...byStation].flatMap(([station, members]): Common<T>[] => {
    const there = all.filter(({ name }) => stationOf.get(name) === station).length;
    const isCommon = members.length >= fewestTogether && members.length >= shareTogether * there;
    return isCommon
      ? [{ station, members }]
      : members.map((member) => ({ station: null, members: [member] }));
  });
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

function movedOf(members: readonly DriftSeries[], field: NameFieldName, name: string): Moved | null {
  const changes = members.flatMap(({ change }) => (change === null ? [] : [change]));
  if (changes.length === 0) return null;
  const byPercent = mean(changes.map((change) => change.afterPercent - change.beforePercent));
  if (Math.abs(byPercent) < leastMovePercent) return null;
  return {
    kind: 'moved',
    field,
    name,
    n: members.reduce((sum, member) => sum + member.refuellings, 0),
    together: members.length,
    byPercent,
    fromMs: Math.min(...changes.map(({ fromMs }) => fromMs)),
    untilMs: Math.max(...changes.map(({ untilMs }) => untilMs)),
    dated: changes.every(({ pValue }) => pValue < clearChange),
    strength: (Math.abs(byPercent) / leastMovePercent) * (byPercent > 0 ? gaugeFirst : 1)
  };
}

function standsOffOf(members: readonly Effect[], field: NameFieldName, name: string): StandsOff {
  const effect = mean(members.map((member) => member.effect));
  return {
    kind: 'standsOff',
    field,
    name,
    n: members.reduce((sum, member) => sum + member.kept, 0),
    together: members.length,
    effect,
    error: Math.max(...members.map(({ error }) => error)),
    strength: (Math.abs(effect) / leastMovePercent) * (effect > 0 ? gaugeFirst : 1)
  };
}

/** Moves and standing offsets of aircraft and vehicles. What moved is not said again as standing off. */
function* gaugesAndMeters(
  context: QuestionContext,
  filter: RecordFilter
): Steps<{ findings: Finding[]; watched: number; falseMoves: number; step: 'week' | 'month' }> {
  const stationOf = yield* stationsOfVehicles(context, filter);
  const fit = yield* attributionSteps(context, { filter });
  const findings: Finding[] = [];
  let watched = 0;
  let falseMoves = 0;
  let step: 'week' | 'month' = 'month';
  for (const subject of ['tail', 'vehicle'] as const satisfies readonly DriftSubject[]) {
    const moves = yield* driftSteps(context, { filter, subject });
    if (!moves.estimable) continue;
    watched += moves.watchedSeries;
    falseMoves += moves.falseAlarms;
    step = moves.step;
    const alarmed = moves.series.filter(({ alarm }) => alarm !== '');
    const said = new Set(alarmed.map(({ name }) => name));
    const effects = fit.estimable ? (subject === 'tail' ? fit.tails : fit.vehicles) : [];
    const off = effects.filter((effect) => effect.likelyOff && effect.separable && !said.has(effect.name));
    if (subject === 'tail') {
      for (const series of alarmed) findings.push(...present(movedOf([series], 'tail', series.name)));
      for (const effect of off) findings.push(standsOffOf([effect], 'tail', effect.name));
      continue;
    }
    for (const { station, members } of together(alarmed, moves.series, stationOf)) {
      const [first] = members;
      findings.push(
        ...present(movedOf(members, station === null ? 'vehicle' : 'station', station ?? first?.name ?? ''))
      );
    }
    for (const { station, members } of together(off, effects, stationOf)) {
      const [first] = members;
      findings.push(
        standsOffOf(members, station === null ? 'vehicle' : 'station', station ?? first?.name ?? '')
      );
    }
  }
  return { findings, watched, falseMoves, step };
}

function present<T>(value: T | null): T[] {
  return value === null ? [] : [value];
}

/** Stations with more outside limits than their types, sizes and seasons let expect: the plain rate blames small uplifts. */
function ratesAbove(
  context: QuestionContext,
  filter: RecordFilter
): { findings: RateAbove[]; compared: number } {
  const units = (funnels(context, { filter, by: 'station' }).fair?.units ?? []).filter(
    ({ verdict }) => verdict !== 'tooFew'
  );
  const findings = units
    .filter(({ verdict }) => verdict === 'above')
    .map((unit): RateAbove => {
      const { lower, upper } = poissonExact(unit.outside, unit.expected);
      return {
        kind: 'rateAbove',
        field: 'station',
        name: unit.name,
        n: unit.judged,
        outside: unit.outside,
        slips: unit.slips,
        expected: unit.expected,
        ratio: unit.value,
        lower,
        upper,
        strength: unit.value
      };
    });
  return { findings, compared: units.length };
}

function oneDensities(context: QuestionContext, filter: RecordFilter): OneDensity[] {
  return density(context, { filter, by: 'station' })
    .groups.filter((group) => group.n >= fewestForVerdict && group.mostFrequentShare > repeatedShare)
    .map((group) => ({
      kind: 'oneDensity',
      field: 'station',
      name: group.name,
      n: group.n,
      share: group.mostFrequentShare,
      valueKgM3: group.mostFrequentKgM3,
      strength: 3 * group.mostFrequentShare
    }));
}

function failuresOf(context: QuestionContext, filter: RecordFilter, check: CheckFieldName): Failures[] {
  const { groups, all } = samples(context, { filter, by: 'station', check });
  return groups
    .filter((group) => group.passed + group.failed >= fewestForVerdict && group.rateLower > all.rate)
    .map((group) => ({
      kind: 'failures',
      field: 'station',
      name: group.name,
      n: group.passed + group.failed,
      check,
      failed: group.failed,
      rate: group.rate,
      lower: group.rateLower,
      upper: group.rateUpper,
      allRate: all.rate,
      strength: group.rate / all.rate
    }));
}

/** The first and the last third of the months in hand, as filters; null where there are too few months. */
function thirds(context: QuestionContext, filter: RecordFilter): [RecordFilter, RecordFilter] | null {
  const months = context.group('month');
  const third = Math.floor((months.count - 1) / 3);
  if (third < 2 || filter.fromDay !== undefined || filter.untilDay !== undefined) return null;
  const until = (month: string) =>
    new Date(Date.parse(`${month}-01`) - 86_400_000).toISOString().slice(0, 10);
  return [
    { ...filter, untilDay: until(months.name(third + 1)) },
    { ...filter, fromDay: `${months.name(months.count - third)}-01` }
  ];
}

function coverageFalls(
  context: QuestionContext,
  filter: RecordFilter,
  check: CheckFieldName
): CoverageFell[] {
  const parts = thirds(context, filter);
  if (parts === null) return [];
  const [before, after] = parts.map(
    (part) => samples(context, { filter: part, by: 'station', check }).groups
  );
  return (after ?? []).flatMap((now): CoverageFell[] => {
    const then = before?.find(({ name }) => name === now.name);
    const dueOf = (group: typeof now) => group.tickets - group.notRequired;
    if (then === undefined || dueOf(then) < fewestForVerdict || dueOf(now) < fewestForVerdict) return [];
    const fall = newcombeDifference(
      then.passed + then.failed,
      dueOf(then),
      now.passed + now.failed,
      dueOf(now)
    );
    if (!(fall.lower > leastCoverageFall)) return [];
    return [
      {
        kind: 'coverageFell',
        field: 'station',
        name: now.name,
        n: dueOf(now),
        check,
        before: then.coverage,
        after: now.coverage,
        lower: fall.lower,
        upper: fall.upper,
        strength: (then.coverage - now.coverage) / leastCoverageFall
      }
    ];
  });
}

/** Named slips of one kind at one station, from five. */
function slipsByStation(context: QuestionContext, filter: RecordFilter): Slips[] {
  const { causes, source } = context.ledger;
  const station = source.columns.code('station');
  const times = source.columns.number('time').values();
  const named = causeOutcomes.indexOf('named') + 1;
  const found = new Map<
    string,
    { name: string; cause: CauseCode; n: number; fromMs: number; untilMs: number }
  >();
  for (const row of context.select(filter).refuellings) {
    const cause = causeCodes[(causes.cause[row] ?? 0) - 1];
    if (causes.outcome[row] !== named || cause === undefined || causeFacts[cause].kind !== 'slip') continue;
    const name = station.text(row);
    const time = times[row] ?? NaN;
    const known = found.get(`${name} ${cause}`);
    found.set(`${name} ${cause}`, {
      name,
      cause,
      n: (known?.n ?? 0) + 1,
      fromMs: Math.min(known?.fromMs ?? Infinity, time),
      untilMs: Math.max(known?.untilMs ?? -Infinity, time)
    });
  }
  return [...found.values()]
    .filter(({ n }) => n >= fewestSlips)
    .map((slips) => ({ kind: 'slips', field: 'station', ...slips, strength: Math.log2(slips.n) }));
}

/** The strongest findings of the records in hand, as numbers, strongest first. */
export function findings(context: QuestionContext, asked: { readonly filter: RecordFilter }): FindingsAnswer {
  return runSteps(findingsSteps(context, asked));
}

/** The same in steps. */
export function* findingsSteps(
  context: QuestionContext,
  asked: { readonly filter: RecordFilter }
): Steps<FindingsAnswer> {
  const { filter } = asked;
  const moves = yield* gaugesAndMeters(context, filter);
  const rates = ratesAbove(context, filter);
  yield;
  const groups = yield* wholeGroups(context, filter);
  const said: Finding[] = [...moves.findings, ...rates.findings];
  for (const look of [oneDensities, densityFindings, eventFindings]) {
    said.push(...look(context, filter));
    yield;
  }
  for (const look of [failuresOf, coverageFalls]) {
    for (const check of fieldsOfKind('check')) {
      said.push(...look(context, filter, check));
      yield;
    }
  }
  said.push(...slipsByStation(context, filter));
  const all = [...said, ...notYetSaid(groups, said)];
  return {
    findings: all.sort((p, q) => q.strength - p.strength || (p.name < q.name ? -1 : 1)),
    wholeGroups: groups,
    watched: moves.watched,
    falseMoves: moves.falseMoves,
    step: moves.step,
    compared: rates.compared
  };
}
