import { densitySlopeKgM3PerC } from '#lib/core/density/index.ts';
import { markBits } from '#lib/core/reconciliation/index.ts';
import { normalQuantile, quantilesUnsorted, withinSlope } from '#lib/core/statistics/index.ts';
import { rowsByCode } from '#lib/data/columns/index.ts';
import type { GroupKey, RecordFilter } from '#lib/data/ledger/index.ts';
import type { QuestionContext } from './context.ts';

/** How much the observed density changes with its temperature, kg/m3 per degC. */
export interface TemperatureSlope {
  readonly name: string;
  /** Tickets with an observed density and its temperature. */
  readonly n: number;
  readonly meanTemperatureC: number;
  readonly meanObservedKgM3: number;
  /** Inside station and week, since fuel differs between them; NaN where it cannot be told. */
  readonly slope: number;
  readonly lower: number;
  readonly upper: number;
  /** What the density tables say at the mean density and temperature. */
  readonly byTables: number;
  /** Flatter: some are densities at 15 degC in disguise, or typed ones. Steeper: the correction may be made twice. */
  readonly verdict: 'agrees' | 'flatter' | 'steeper' | 'unknown';
}

export interface DensityTemperatureAnswer {
  readonly by: GroupKey;
  readonly groups: readonly TemperatureSlope[];
  readonly all: TemperatureSlope;
  /** Counts in a grid over both, cells that hold something. */
  readonly bins: readonly {
    readonly x0: number;
    readonly x1: number;
    readonly y0: number;
    readonly y1: number;
    readonly count: number;
  }[];
}

const z95 = 1.959964;
/** A slope that differs from the tables by less than this share of it says nothing: common practice, no source. */
const leastShare = 0.15;
/** Chance that any of the slopes compared is named where all follow the tables. */
const falseShare = 0.01;
const fewestTickets = 100;
const beyondShare = 0.002;
const columns = 48;
const lines = 24;

/** Observed density and its temperature on the rows that have both and are no slips of a unit. */
interface Pairs {
  readonly rows: Uint32Array;
  readonly temperatureC: Float64Array;
  readonly observedKgM3: Float64Array;
}

function pairsOf(context: QuestionContext, rows: Uint32Array): Pairs {
  const { source, computed } = context.ledger;
  const observed = source.columns.valuesOf('densityObserved');
  const sample = source.columns.valuesOf('densityTemperature');
  const meter = source.columns.valuesOf('fuelTemperature');
  const implausible = markBits.densityImplausible | markBits.temperatureImplausible;
  const kept = new Uint32Array(rows.length);
  const temperatureC = new Float64Array(rows.length);
  const observedKgM3 = new Float64Array(rows.length);
  let n = 0;
  for (let i = 0; i < rows.length; i++) {
    const row = rows[i] ?? 0;
    const density = observed[row] ?? NaN;
    const own = sample[row] ?? NaN;
    const celsius = Number.isNaN(own) ? (meter[row] ?? NaN) : own;
    if (Number.isNaN(density + celsius) || ((computed.marks[row] ?? 0) & implausible) !== 0) continue;
    kept[n] = row;
    temperatureC[n] = celsius;
    observedKgM3[n++] = density;
  }
  return {
    rows: kept.subarray(0, n),
    temperatureC: temperatureC.subarray(0, n),
    observedKgM3: observedKgM3.subarray(0, n)
  };
}

const meanOf = (values: Float64Array): number =>
  values.length === 0 ? NaN : values.reduce((sum, value) => sum + value, 0) / values.length;

/** Codes of station and week together. */
function weekCodes(context: QuestionContext, rows: Uint32Array): Int32Array {
  const station = context.ledger.source.columns.code('station').codes();
  const { codes, count } = context.group('week');
  const found = new Int32Array(rows.length);
  for (let i = 0; i < rows.length; i++) {
    const row = rows[i] ?? 0;
    found[i] = (station[row] ?? 0) * count + (codes[row] ?? 0);
  }
  return found;
}

/** `z` is the distance, in standard errors, that one slope among those compared seldom reaches by chance. */
function verdictOf(slope: number, error: number, byTables: number, z: number): TemperatureSlope['verdict'] {
  if (Number.isNaN(slope)) return 'unknown';
  const off = slope - byTables;
  if (Math.abs(off) <= Math.max(leastShare * Math.abs(byTables), z * error)) return 'agrees';
  return off > 0 ? 'flatter' : 'steeper';
}

function slopeOf(context: QuestionContext, pairs: Pairs, name: string, z: number): TemperatureSlope {
  const { rows, temperatureC, observedKgM3 } = pairs;
  const weeks = weekCodes(context, rows);
  const fit = rows.length < fewestTickets ? null : withinSlope(temperatureC, observedKgM3, weeks, weeks);
  const meanTemperatureC = meanOf(temperatureC);
  const meanObservedKgM3 = meanOf(observedKgM3);
  const { edition } = context.settings.method.arithmetic;
  const byTables = densitySlopeKgM3PerC(meanObservedKgM3, meanTemperatureC, edition);
  const slope = fit?.estimable === true ? fit.slope : NaN;
  const error = fit?.estimable === true ? fit.standardError : NaN;
  return {
    name,
    n: rows.length,
    meanTemperatureC,
    meanObservedKgM3,
    slope,
    lower: slope - z95 * error,
    upper: slope + z95 * error,
    byTables,
    verdict: verdictOf(slope, error, byTables, z)
  };
}

function binsOf({ temperatureC, observedKgM3 }: Pairs): DensityTemperatureAnswer['bins'] {
  if (temperatureC.length === 0) return [];
  const domain = (values: Float64Array): [number, number] => {
    const [low = NaN, high = NaN] = quantilesUnsorted(values.slice(), [beyondShare, 1 - beyondShare]);
    return [Math.floor(low) - 1, Math.ceil(high) + 1];
  };
  const [x0, x1] = domain(temperatureC);
  const [y0, y1] = domain(observedKgM3);
  const counts = new Uint32Array(columns * lines);
  for (let i = 0; i < temperatureC.length; i++) {
    const column = Math.floor((((temperatureC[i] ?? NaN) - x0) / (x1 - x0)) * columns);
    const line = Math.floor((((observedKgM3[i] ?? NaN) - y0) / (y1 - y0)) * lines);
    if (column < 0 || column >= columns || line < 0 || line >= lines) continue;
    const place = column * lines + line;
    counts[place] = (counts[place] ?? 0) + 1;
  }
  const x = (column: number) => x0 + (column / columns) * (x1 - x0);
  const y = (line: number) => y0 + (line / lines) * (y1 - y0);
  return Array.from(counts.entries())
    .filter(([, count]) => count > 0)
    .map(([place, count]) => {
      const column = Math.floor(place / lines);
      const line = place % lines;
      return { x0: x(column), x1: x(column + 1), y0: y(line), y1: y(line + 1), count };
    });
}

/**
 * Whether the density as typed follows its temperature as the tables say. Inside station and week, since fuel
 * changes with batch and season, with errors that allow for what tickets of one week share.
 */
export function densityTemperature(
  context: QuestionContext,
  asked: { readonly filter: RecordFilter; readonly by: GroupKey }
): DensityTemperatureAnswer {
  const pairs = pairsOf(context, context.select(asked.filter).rows);
  const grouping = context.group(asked.by);
  const sorted = rowsByCode(grouping.codes, grouping.count, pairs.rows);
  const groups: TemperatureSlope[] = [];
  const compared = sorted.starts.filter((start, code) => start < (sorted.starts[code + 1] ?? start)).length;
  const z = normalQuantile(1 - falseShare / 2 / Math.max(1, compared));
  for (let code = 0; code < grouping.count; code++) {
    const own = sorted.rows.subarray(sorted.starts[code], sorted.starts[code + 1]);
    if (own.length > 0) groups.push(slopeOf(context, pairsOf(context, own), grouping.name(code), z));
  }
  if (asked.by !== 'month' && asked.by !== 'size') groups.sort((p, q) => (p.name < q.name ? -1 : 1));
  return { by: asked.by, groups, all: slopeOf(context, pairs, '', z), bins: binsOf(pairs) };
}
