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
import { volumeCorrectionFactor } from '#lib/core/density/index.ts';
import type { RecordFilter } from '#lib/data/ledger/index.ts';
import { attribution, type Effect } from './attribution.ts';
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
function valuesAt(own: OwnDiscrepancies, values: Float64Array, positions: readonly number[]): Float64Array {
  return Float64Array.from(positions, (k) => values[own.records.rows[k] ?? -1] ?? NaN);
}

/** 100 ln VCF of each refuelling's fuel at its meter. */
function expansionsOf(
  context: QuestionContext,
  own: OwnDiscrepancies,
  positions: readonly number[]
): Float64Array {
  const { columns } = context.ledger.source;
  const { edition } = context.settings.method.arithmetic;
  const fuel15 = valuesAt(own, context.ledger.computed.density15KgM3, positions);
  const meterC = valuesAt(own, columns.valuesOf('fuelTemperature'), positions);
  const sampleC = valuesAt(own, columns.valuesOf('densityTemperature'), positions);
  return fuel15.map((density, i) => {
    const temperature = Number.isNaN(meterC[i] ?? NaN) ? (sampleC[i] ?? NaN) : (meterC[i] ?? NaN);
    return 100 * Math.log(volumeCorrectionFactor(density, temperature, edition));
  });
}

/** Causes of a station, the aircraft's effects taken off. */
function causesAt(
  context: QuestionContext,
  own: OwnDiscrepancies,
  positions: readonly number[],
  rows: Uint32Array
): GroupCause[] {
  const { columns } = context.ledger.source;
  const { fit, records } = own;
  const ownPercent = Float64Array.from(
    positions,
    (k) => (records.y[k] ?? NaN) - fit.mean - (fit.a.effect[records.a[k] ?? -1] ?? NaN)
  );
  const ratioWeight = Float64Array.from(
    positions,
    (k) => (fit.robustWeight[k] ?? 0) * (fit.precisionWeight[k] ?? 0)
  );
  const take = (values: Float64Array) => Float64Array.from(positions, (k) => values[k] ?? NaN);
  const massKg = take(records.massKg);
  const ownKg = massKg.map((mass, i) => mass * Math.expm1((ownPercent[i] ?? NaN) / 100));
  const kgWeight = massKg.map((mass, i) => (ratioWeight[i] ?? 0) / (mass * mass));
  const burn = valuesAt(own, columns.valuesOf('groundBurn'), positions);
  const burnShare = burn.filter((value) => Number.isFinite(value)).length / Math.max(1, burn.length);
  const all = (name: 'densityObserved' | 'densityTemperature') => {
    const values = columns.valuesOf(name);
    return Float64Array.from(rows, (row) => values[row] ?? NaN);
  };
  const { certificateDifferenceKgM3 } = context.ledger.computed;
  const { defaultDensityKgM3, hottestC, coldestC } = defaultCauseOptions;
  const density = [
    defaultDensityCause(all('densityObserved'), defaultDensityKgM3),
    fahrenheitCause(all('densityTemperature'), hottestC, coldestC),
    temperatureCause(expansionsOf(context, own, positions), ownPercent, ratioWeight)
  ].filter((cause) => cause !== null);
  const certificate = certificateCause(
    Float64Array.from(rows, (row) => certificateDifferenceKgM3[row] ?? NaN)
  );
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

function instruments(
  context: QuestionContext,
  filter: RecordFilter,
  field: 'tail' | 'vehicle',
  effects: readonly Effect[]
): GroupCauseSaid[] {
  const own = ownDiscrepancies(context, filter, field);
  if (own === null) return [];
  const { columns } = context.ledger.source;
  const levels = byLevel(own.level);
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
  const own = ownDiscrepancies(context, asked.filter, 'tail');
  const fit = attribution(context, asked);
  if (own === null || !fit.estimable) return { causes: [], looked: 0 };
  const station = context.ledger.source.columns.code('station');
  const stationOf = Int32Array.from(own.records.rows, (row) => station.at(row));
  const rowsOf = byLevel(Int32Array.from(context.select(asked.filter).refuellings, (row) => station.at(row)));
  const refuellings = context.select(asked.filter).refuellings;
  const stations = [...byLevel(stationOf)].flatMap(([code, positions]): GroupCauseSaid[] => {
    const rows = Uint32Array.from(rowsOf.get(code) ?? [], (i) => refuellings[i] ?? 0);
    return causesAt(context, own, positions, rows).map((cause) => ({
      ...cause,
      field: 'station',
      name: station.dictionary.text(code),
      seen: null
    }));
  });
  const tails = instruments(context, asked.filter, 'tail', fit.tails);
  // What a whole station does looks like a bias of each of its meters.
  const stationOfVehicle = stationsOfVehicles(context, asked.filter);
  const explained = new Set(
    stations.filter(({ cause }) => cause !== 'wrongCertificate').map(({ name }) => name)
  );
  const vehicles = instruments(context, asked.filter, 'vehicle', fit.vehicles).filter(
    ({ name }) => !explained.has(stationOfVehicle.get(name) ?? '')
  );
  return {
    causes: [...stations, ...tails, ...vehicles],
    looked: rowsOf.size + fit.tails.length + fit.vehicles.length
  };
}
