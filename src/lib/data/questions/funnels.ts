import {
  benjaminiHochberg,
  binomialFunnel,
  binomialFunnelLimits,
  expectedEvents,
  poissonFunnel,
  poissonFunnelLimits,
  type Estimate,
  type ExpectedEvents,
  type Funnel,
  type Interval
} from '#lib/core/statistics/index.ts';
import type { RecordFilter } from '#lib/data/ledger/index.ts';
import type { NameFieldName } from '#lib/data/record/index.ts';
import type { QuestionContext } from './context.ts';
import { fewestForVerdict } from './discrepancy.ts';
import { rateBits, ratesOf } from './rates.ts';
import { crossStrata, likePart } from './strata.ts';

/** How a unit stands to all together, the share of false names among those said to differ held to 10 %. */
export type FunnelVerdict = 'above' | 'below' | 'notToldApart' | 'tooFew';

/** One station, aircraft or vehicle in a funnel. */
export interface FunnelUnit {
  readonly name: string;
  /** Judged refuellings that count here, those outside, and those of them that are suspected slips. */
  readonly judged: number;
  readonly outside: number;
  readonly slips: number;
  /** How many would be outside if it were like all together. */
  readonly expected: number;
  /** The rate, or observed over expected. */
  readonly value: number;
  /** Limits for its size, in the order of the curves. */
  readonly bounds: readonly Interval[];
  readonly verdict: FunnelVerdict;
  /** Past the 95 % limits of chance alone, whatever the spread between units. */
  readonly pastChance: boolean;
}

/** A pair of limits over the size. */
export interface FunnelCurve {
  readonly coverage: number;
  /** Widened by the spread between units that chance does not explain. */
  readonly widened: boolean;
  readonly points: readonly (Interval & { readonly size: number })[];
}

export interface FunnelView {
  readonly target: number;
  readonly units: readonly FunnelUnit[];
  readonly curves: readonly FunnelCurve[];
  /** Spread between units beyond chance, one standard deviation, in the unit of the value. */
  readonly betweenSpread: number;
  /** False where there are too few units to judge the spread, or chance explains it. */
  readonly adjusted: boolean;
  /** Judged refuellings left out since no other unit has any like them. */
  readonly alone: number;
}

export interface FunnelsAnswer {
  readonly by: NameFieldName;
  readonly judged: number;
  /** Plain rate over the number judged; null where nothing is outside or there are fewer than two units. */
  readonly plain: FunnelView | null;
  /** Observed over expected, given type, size band and season. */
  readonly fair: FunnelView | null;
}

const coverages = [0.95, 0.998] as const;
const falseShare = 0.1;
const curvePoints = 48;

/** What a funnel is drawn from. Arrays have one entry a unit. */
interface Sized {
  readonly names: readonly string[];
  readonly judged: Float64Array;
  readonly outside: Float64Array;
  readonly slips: Float64Array;
  readonly expected: Float64Array;
  /** What the limits narrow with: number judged, or number expected. */
  readonly sizes: Float64Array;
  readonly alone: number;
}

function curveSizes(sizes: Float64Array): number[] {
  const largest = sizes.reduce((most, size) => Math.max(most, size), 0);
  const smallest = sizes.reduce((least, size) => (size > 0 ? Math.min(least, size) : least), largest);
  const from = Math.max(Math.min(smallest, largest / 200), 0.2);
  return Array.from(
    { length: curvePoints },
    (_none, i) => from * (largest / from) ** (i / (curvePoints - 1))
  );
}

/** Counts of the units large enough to say something; the others do not tell how far units differ. */
function ofLarge(from: Pick<Sized, 'judged'>, values: Float64Array): Float64Array {
  return values.map((value, i) => ((from.judged[i] ?? 0) < fewestForVerdict ? 0 : value));
}

function viewOf(
  from: Sized,
  funnel: Estimate<Funnel>,
  limitsAt: (size: number, coverage: number, betweenVariance: number) => Interval
): FunnelView | null {
  if (!funnel.estimable || from.names.length < 2) return null;
  const pairs = (funnel.adjusted ? [false, true] : [false]).flatMap((widened) =>
    coverages.map((coverage) => ({ widened, coverage }))
  );
  const at = (size: number, { widened, coverage }: { widened: boolean; coverage: number }) =>
    limitsAt(size, coverage, widened ? funnel.betweenVariance : 0);
  const { adjusted: adjustedP } = benjaminiHochberg(funnel.pValue, falseShare);
  const units = from.names.map((name, i): FunnelUnit => {
    const isFew = (from.judged[i] ?? 0) < fewestForVerdict;
    const value = (from.outside[i] ?? NaN) / (from.sizes[i] ?? NaN);
    const bounds = pairs.map((pair) => at(from.sizes[i] ?? NaN, pair));
    const { lower = NaN, upper = NaN } = bounds[0] ?? {};
    const differs = (adjustedP[i] ?? NaN) <= falseShare;
    return {
      name,
      judged: from.judged[i] ?? 0,
      outside: from.outside[i] ?? 0,
      slips: from.slips[i] ?? 0,
      expected: from.expected[i] ?? NaN,
      value,
      bounds,
      verdict: isFew ? 'tooFew' : !differs ? 'notToldApart' : value > funnel.target ? 'above' : 'below',
      pastChance: value > upper || value < lower
    };
  });
  const sizes = curveSizes(from.sizes);
  return {
    target: funnel.target,
    units,
    curves: pairs.map((pair) => ({ ...pair, points: sizes.map((size) => ({ size, ...at(size, pair) })) })),
    betweenSpread: Math.sqrt(funnel.betweenVariance),
    adjusted: funnel.adjusted,
    alone: from.alone
  };
}

/** Entries of the units that have something to show, in the order of their names. */
function pick(
  names: readonly string[],
  sizes: Float64Array
): { order: number[]; take: (values: Float64Array) => Float64Array } {
  const order = names
    .map((_name, code) => code)
    .filter((code) => (sizes[code] ?? 0) > 0)
    .sort((a, b) => ((names[a] ?? '') < (names[b] ?? '') ? -1 : 1));
  return { order, take: (values) => Float64Array.from(order, (code) => values[code] ?? 0) };
}

/** Judged refuellings of a filter whose unit is known; one served by two vehicles belongs to neither. */
function judgedRows(context: QuestionContext, filter: RecordFilter, by: NameFieldName): Uint32Array {
  const { flags } = ratesOf(context);
  const { severalVehicles } = context.ledger.computed;
  const { codes } = context.group(by);
  const { refuellings } = context.select(filter);
  const isByVehicle = by === 'vehicle';
  const found = new Uint32Array(refuellings.length);
  let count = 0;
  for (let i = 0; i < refuellings.length; i++) {
    const row = refuellings[i] as number;
    if (((flags[row] as number) & rateBits.judged) === 0 || codes[row] === 0) continue;
    if (!isByVehicle || severalVehicles[row] !== 1) found[count++] = row;
  }
  return found.subarray(0, count);
}

interface Judged {
  readonly units: Uint32Array;
  readonly events: Uint8Array;
  /** Suspected slips among the events of each unit. */
  readonly slips: Float64Array;
}

function judgedOf(context: QuestionContext, rows: Uint32Array, by: NameFieldName): Judged {
  const grouping = context.group(by);
  const { flags } = ratesOf(context);
  const units = new Uint32Array(rows.length);
  const events = new Uint8Array(rows.length);
  const slips = new Float64Array(grouping.count);
  for (let i = 0; i < rows.length; i++) {
    const row = rows[i] as number;
    const bits = flags[row] as number;
    const unit = grouping.codes[row] as number;
    units[i] = unit;
    if ((bits & rateBits.outside) === 0) continue;
    events[i] = 1;
    if ((bits & rateBits.slip) !== 0) slips[unit] = (slips[unit] as number) + 1;
  }
  return { units, events, slips };
}

const sum = (values: Float64Array): number => values.reduce((total, value) => total + value, 0);

/**
 * Two funnels of refuellings outside limits: the plain rate against how many were judged, and observed over expected
 * given type, size band and season, so that a station is not blamed for what it serves.
 */
export function funnels(
  context: QuestionContext,
  asked: { readonly filter: RecordFilter; readonly by: NameFieldName }
): FunnelsAnswer {
  const rows = judgedRows(context, asked.filter, asked.by);
  const grouping = context.group(asked.by);
  const { units, events, slips } = judgedOf(context, rows, asked.by);
  const strata = crossStrata([likePart(context)], rows);
  const counted = expectedEvents({
    units,
    unitCount: grouping.count,
    strata: strata.codes,
    strataCount: strata.count,
    events
  });
  const names = Array.from({ length: grouping.count }, (_none, code) => grouping.name(code));
  return {
    by: asked.by,
    judged: rows.length,
    plain: plainView(names, counted, slips),
    fair: fairView(names, counted, slips)
  };
}

function plainView(
  names: readonly string[],
  counted: ExpectedEvents,
  slips: Float64Array
): FunnelView | null {
  const { order, take } = pick(names, counted.totals);
  const sizes = take(counted.totals);
  const from = {
    names: order.map((code) => names[code] ?? ''),
    judged: sizes,
    outside: take(counted.events),
    slips: take(slips),
    sizes,
    alone: 0
  };
  const funnel = binomialFunnel(ofLarge(from, from.outside), ofLarge(from, sizes));
  const target = funnel.estimable ? funnel.target : NaN;
  const expected = sizes.map((size) => size * target);
  return viewOf({ ...from, expected }, funnel, (size, coverage, between) =>
    binomialFunnelLimits(target, size, coverage, between)
  );
}

function fairView(names: readonly string[], counted: ExpectedEvents, slips: Float64Array): FunnelView | null {
  const { order, take } = pick(names, counted.expected);
  const expected = take(counted.expected);
  const from = {
    names: order.map((code) => names[code] ?? ''),
    judged: take(counted.shared),
    outside: take(counted.observed),
    slips: take(slips),
    expected,
    sizes: expected,
    alone: sum(counted.totals) - sum(counted.shared)
  };
  return viewOf(
    from,
    poissonFunnel(ofLarge(from, from.outside), ofLarge(from, expected)),
    poissonFunnelLimits
  );
}
