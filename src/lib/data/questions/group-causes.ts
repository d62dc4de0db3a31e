import {
  certificateCause,
  defaultCauseOptions,
  defaultDensityCause,
  fahrenheitCause,
  groundBurnCause,
  instrumentCause,
  sameSide,
  temperatureCause,
  type AtPlace,
  type GroupCause,
  type SameSide
} from '#lib/core/causes/index.ts';
import { filled, runSteps, type Steps } from '#lib/core/statistics/index.ts';
import { volumeCorrectionFactor } from '#lib/core/density/index.ts';
import type { RecordFilter } from '#lib/data/ledger/index.ts';
import { attributionSteps, type Effect } from './attribution.ts';
import type { QuestionContext } from './context.ts';
import { stationsOfVehicles } from './findings/stations-of-vehicles.ts';
import { byLevel } from './offsets.ts';
import { ownDiscrepancies, type OwnDiscrepancies } from './own-discrepancy.ts';

/** What would fit many records of one station, aircraft or vehicle together. */
export interface GroupCauseSaid extends GroupCause {
  readonly field: 'station' | 'tail' | 'vehicle';
  readonly name: string;
  /** Of a gauge or meter: at how many stations, or with how many aircraft, it goes the same way. */
  readonly seen: SameSide | null;
}

export interface GroupCausesAnswer {
  readonly causes: readonly GroupCauseSaid[];
  /** Groups of 50 and more that were looked at. */
  readonly looked: number;
}

/** Values of the ledger by position in the crossed records. */
function valuesAt(
  own: OwnDiscrepancies,
  values: Float64Array,
  positions: readonly number[]
): Steps<Float64Array> {
  const { rows } = own.records;
  return filled(new Float64Array(positions.length), (i) => values[rows[positions[i] ?? -1] ?? -1] ?? NaN);
}

/** 100 ln VCF of each refuelling's fuel at its meter. */
function* expansionsOf(
  context: QuestionContext,
  own: OwnDiscrepancies,
  positions: readonly number[]
): Steps<Float64Array> {
  const { columns } = context.ledger.source;
  const { edition } = context.settings.method.arithmetic;
  const fuel15 = yield* valuesAt(own, context.ledger.computed.density15KgM3, positions);
  const meterC = yield* valuesAt(own, columns.valuesOf('fuelTemperature'), positions);
  const sampleC = yield* valuesAt(own, columns.valuesOf('densityTemperature'), positions);
  return yield* filled(new Float64Array(fuel15.length), (i) => {
    const density = fuel15[i] ?? NaN;
    const temperature = Number.isNaN(meterC[i] ?? NaN) ? (sampleC[i] ?? NaN) : (meterC[i] ?? NaN);
    return 100 * Math.log(volumeCorrectionFactor(density, temperature, edition));
  });
}

/** Causes of a station, the aircraft's effects taken off. */
function* causesAt(
  context: QuestionContext,
  own: OwnDiscrepancies,
  positions: readonly number[],
  rows: Uint32Array
): Steps<GroupCause[]> {
  const { columns } = context.ledger.source;
  const { fit, records } = own;
  const at = (valueAt: (k: number) => number) =>
    filled(new Float64Array(positions.length), (i) => valueAt(positions[i] ?? -1));
  const ownPercent = yield* at(
    (k) => (records.y[k] ?? NaN) - fit.mean - (fit.a.effect[records.a[k] ?? -1] ?? NaN)
  );
  const ratioWeight = yield* at((k) => (fit.robustWeight[k] ?? 0) * (fit.precisionWeight[k] ?? 0));
  const massKg = yield* at((k) => records.massKg[k] ?? NaN);
  const ownKg = yield* filled(
    new Float64Array(massKg.length),
    (i) => (massKg[i] ?? NaN) * Math.expm1((ownPercent[i] ?? NaN) / 100)
  );
  const kgWeight = massKg.map((mass, i) => (ratioWeight[i] ?? 0) / (mass * mass));
  yield;
  const burn = yield* valuesAt(own, columns.valuesOf('groundBurn'), positions);
  const burnShare = burn.filter((value) => Number.isFinite(value)).length / Math.max(1, burn.length);
  const ofRows = (values: Float64Array) =>
    filled(new Float64Array(rows.length), (i) => values[rows[i] ?? -1] ?? NaN);
  const { certificateDifferenceKgM3 } = context.ledger.computed;
  const { defaultDensityKgM3, hottestC, coldestC } = defaultCauseOptions;
  const sameDensity = defaultDensityCause(
    yield* ofRows(columns.valuesOf('densityObserved')),
    defaultDensityKgM3
  );
  const fahrenheit = fahrenheitCause(
    yield* ofRows(columns.valuesOf('densityTemperature')),
    hottestC,
    coldestC
  );
  yield;
  const temperature = temperatureCause(yield* expansionsOf(context, own, positions), ownPercent, ratioWeight);
  yield;
  const density = [sameDensity, fahrenheit, temperature].filter((cause) => cause !== null);
  const certificate = certificateCause(yield* ofRows(certificateDifferenceKgM3));
  yield;
  const burnt = groundBurnCause(massKg, ownKg, kgWeight, burnShare);
  // A density that is none moves away from its certificate by itself.
  return [...density, density.length > 0 ? null : certificate, burnt].filter((cause) => cause !== null);
}

/** The own part of the discrepancy of one level at each place. */
function byPlace(
  own: OwnDiscrepancies,
  positions: readonly number[],
  placeOf: (k: number) => number
): AtPlace[] {
  const sums = new Map<number, { n: number; sum: number; weight: number }>();
  for (const k of positions) {
    const weight = own.weight[k] ?? 0;
    if (!(weight > 0)) continue;
    const place = sums.get(placeOf(k)) ?? { n: 0, sum: 0, weight: 0 };
    place.n++;
    place.sum += weight * (own.ownKg[k] ?? NaN);
    place.weight += weight;
    sums.set(placeOf(k), place);
  }
  return [...sums.values()].map(({ n, sum, weight }) => ({ n, mean: sum / weight }));
}

function* instruments(
  context: QuestionContext,
  filter: RecordFilter,
  field: 'tail' | 'vehicle',
  effects: readonly Effect[]
): Steps<GroupCauseSaid[]> {
  const own = yield* ownDiscrepancies(context, filter, field);
  if (own === null) return [];
  const { columns } = context.ledger.source;
  const levels = yield* byLevel(own.level);
  const texts = columns.code(field).dictionary.texts();
  const station = columns.code('station').codes();
  // An aircraft is seen at stations, a vehicle with aircraft: it may never leave its station.
  const placeOf = (k: number) =>
    field === 'tail' ? (station[own.records.rows[k] ?? -1] ?? 0) : (own.records.a[k] ?? 0);
  return effects
    .filter(({ likelyOff, separable }) => likelyOff && separable)
    .flatMap(({ name, effect, error, kept }): GroupCauseSaid[] => {
      const seen = sameSide(effect, byPlace(own, levels.get(texts.indexOf(name)) ?? [], placeOf));
      const code = field === 'tail' ? 'gaugeBias' : 'meterBias';
      const cause = instrumentCause(code, { value: effect, error }, kept, seen);
      return cause === null ? [] : [{ ...cause, field, name, seen }];
    });
}

/** What would fit the records of whole stations, aircraft and vehicles; nothing where too few can be compared. */
export function groupCauses(
  context: QuestionContext,
  asked: { readonly filter: RecordFilter }
): GroupCausesAnswer {
  return runSteps(groupCausesSteps(context, asked));
}

/** The same in steps. */
export function* groupCausesSteps(
  context: QuestionContext,
  asked: { readonly filter: RecordFilter }
): Steps<GroupCausesAnswer> {
  const own = yield* ownDiscrepancies(context, asked.filter, 'tail');
  const fit = yield* attributionSteps(context, asked);
  if (own === null || !fit.estimable) return { causes: [], looked: 0 };
  const station = context.ledger.source.columns.code('station');
  const { rows: crossed } = own.records;
  const stationOf = yield* filled(new Int32Array(crossed.length), (k) => station.at(crossed[k] ?? 0));
  const { refuellings } = context.select(asked.filter);
  const rowsOf = yield* byLevel(
    yield* filled(new Int32Array(refuellings.length), (i) => station.at(refuellings[i] ?? 0))
  );
  const stations: GroupCauseSaid[] = [];
  for (const [code, positions] of yield* byLevel(stationOf)) {
    const rows = Uint32Array.from(rowsOf.get(code) ?? [], (i) => refuellings[i] ?? 0);
    const name = station.dictionary.text(code);
    for (const cause of yield* causesAt(context, own, positions, rows)) {
      stations.push({ ...cause, field: 'station', name, seen: null });
    }
  }
  const tails = yield* instruments(context, asked.filter, 'tail', fit.tails);
  // What a whole station does looks like a bias of each of its meters.
  const stationOfVehicle = yield* stationsOfVehicles(context, asked.filter);
  const explained = new Set(
    stations.filter(({ cause }) => cause !== 'wrongCertificate').map(({ name }) => name)
  );
  const vehicles = (yield* instruments(context, asked.filter, 'vehicle', fit.vehicles)).filter(
    ({ name }) => !explained.has(stationOfVehicle.get(name) ?? '')
  );
  return {
    causes: [...stations, ...tails, ...vehicles],
    looked: rowsOf.size + fit.tails.length + fit.vehicles.length
  };
}
