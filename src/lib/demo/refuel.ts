import { densityAt } from '#lib/core/density/index.ts';
import { minutesPerDay } from './calendar.ts';
import { supplierChange } from './event-list.ts';
import { hiddenKg, readGauge } from './gauge.ts';
import { meterPercent } from './meters.ts';
import { plan } from './plan.ts';
import { between, chance, exponential, normal, pick, uniform } from './random.ts';
import type { DemoRow } from './row.ts';
import type { State, TailState } from './state.ts';
import { demoStations } from './stations.ts';
import { farms } from './suppliers.ts';
import type { SimulatedTail } from './tails.ts';
import { fuelTemperatureC } from './weather.ts';
import type { World } from './world.ts';

const roundTo = (value: number, step: number): number => Math.round(value / step) * step;
const tenth = (value: number): number => Math.round(value * 10) / 10;

/** Where a fuelling takes place and with what, before anything is measured. */
interface Setting {
  readonly world: World;
  readonly tail: SimulatedTail;
  readonly now: TailState;
  readonly day: number;
  readonly stationCode: string;
  readonly farm: number;
  readonly supplier: string;
  readonly vehicle: number;
}

/** The truck that comes: the paired truck for the paired tail, for others hardly ever. */
function chooseVehicle(world: World, tail: SimulatedTail, farm: number, now: TailState): number {
  const random = now.random;
  const choices = world.vehiclesOfFarm[farm] ?? [];
  const chosen = pick(random, choices);
  if (!world.faults) return chosen;
  const paired = choices.find((index) => world.vehicles[index]?.entry.code === plan.pair.vehicle);
  if (paired === undefined) return chosen;
  if (tail.registration === plan.pair.tail && chance(random, 0.985)) return paired;
  // The paired truck is drawn once in `choices`; of those draws this share stands, so that the pair keeps to itself.
  const stands = (0.0027 * choices.length) / world.share;
  if (chosen !== paired || chance(random, stands)) return chosen;
  return pick(
    random,
    choices.filter((index) => index !== paired)
  );
}

function settingOf(world: World, tail: SimulatedTail, now: TailState): Setting {
  const day = Math.floor(now.endMinute / minutesPerDay);
  const farmsHere = world.farmsOfStation[now.station] ?? [];
  const farm = farmsHere.length === 1 ? (farmsHere[0] ?? 0) : pick(now.random, farmsHere);
  const stationCode = demoStations[now.station]?.code ?? '';
  const [first = '', second = first] = farms[farm]?.suppliers ?? [];
  const isChanged = stationCode === supplierChange.station && day >= supplierChange.day;
  const supplier = isChanged ? supplierChange.to : chance(now.random, 0.6) ? first : second;
  const vehicle = chooseVehicle(world, tail, farm, now);
  return { world, tail, now, day, stationCode, farm, supplier, vehicle };
}

/** Ground burn between the two readings: what was burnt and what is written, kg (NaN: not written). */
function groundBurn({ world, tail, now, stationCode }: Setting): { trueKg: number; writtenKg: number } {
  const { groundBurnKg, unpoweredBurnKg, burnStepKg } = tail.performance;
  const random = now.random;
  if (world.faults && stationCode === plan.unpowered.station) {
    return { trueKg: unpoweredBurnKg * (1 + 0.1 * normal(random)), writtenKg: NaN };
  }
  const slightKg = exponential(random, 0.15 * groundBurnKg);
  if (!chance(random, 0.8)) return { trueKg: slightKg, writtenKg: NaN };
  const writtenKg = roundTo(2 * groundBurnKg * uniform(random), burnStepKg);
  return { trueKg: writtenKg + slightKg, writtenKg };
}

/** What the sample and the papers say of the fuel: densities, kg/m3, and temperatures, degC. */
function sample(
  setting: Setting
): Pick<
  DemoRow,
  | 'batch'
  | 'densityObservedKgM3'
  | 'densityTemperatureC'
  | 'fuelTemperatureC'
  | 'densityCertificate15KgM3'
  | 'planted'
> & { densityKgM3: number } {
  const { world, now, day, farm, stationCode, vehicle } = setting;
  const random = now.random;
  const fuel = world.fuel[farm]?.[day];
  if (fuel === undefined) throw new RangeError(`fuel: farm ${farm} on day ${day}, need a day of the demo`);
  const isHydrant = world.vehicles[vehicle]?.entry.code.charAt(5) === 'H';
  const temperatureC =
    fuelTemperatureC(world.spells, now.station, now.endMinute, isHydrant) + 0.8 * normal(random);
  const density15KgM3 = fuel.certificateKgM3 + 0.25 * normal(random);
  const sampleC = temperatureC + 0.6 * normal(random);
  const readingNoiseKgM3 = 0.25 * normal(random);
  let observedKgM3 = tenth(densityAt(density15KgM3, sampleC, '1980') + readingNoiseKgM3);
  const planted: DemoRow['planted'] = [];
  const habit = world.faults ? uniform(random) : 1;
  const { hotDays, tidyDensity } = plan;
  if (stationCode === hotDays.station && day >= hotDays.fromDay && tenth(temperatureC) > hotDays.aboveC) {
    if (habit < hotDays.share) {
      const written = tenth(density15KgM3 + readingNoiseKgM3);
      planted.push(densityHabit('density-at-15-as-observed', 4, observedKgM3, written));
      observedKgM3 = written;
    }
  } else if (stationCode === tidyDensity.station && habit < tidyDensity.share) {
    planted.push(densityHabit('default-density', 5, observedKgM3, tidyDensity.densityKgM3));
    observedKgM3 = tidyDensity.densityKgM3;
  }
  return {
    batch: fuel.batch,
    densityObservedKgM3: observedKgM3,
    densityTemperatureC: roundTo(sampleC, 0.5),
    fuelTemperatureC: tenth(temperatureC),
    densityCertificate15KgM3: fuel.certificateKgM3,
    planted,
    densityKgM3: densityAt(density15KgM3, temperatureC, '1980')
  };
}

function densityHabit(
  kind: string,
  story: number,
  trueKgM3: number,
  writtenKgM3: number
): DemoRow['planted'][0] {
  return {
    kind,
    field: 'densityObserved',
    factor: writtenKgM3 / trueKgM3,
    trueValue: String(trueKgM3),
    writtenValue: String(writtenKgM3),
    story
  };
}

/** Litres that the meter of a vehicle counts for a mass, whole. */
function meteredL(setting: Setting, vehicle: number, massKg: number, densityKgM3: number): number {
  const { world, now, day } = setting;
  const counted = 1 + meterPercent(world, vehicle, day) / 100 + 0.0005 * normal(now.random);
  return Math.round((1000 * massKg * counted) / densityKgM3);
}

/** Departure reading: by the gauges, or, on the rare visits to the tiny station, as planted. */
function departureReading(setting: Setting, massKg: number, burnKg: number, visit: number): number {
  const { world, tail, now, day } = setting;
  const percent = plan.small.percents[visit - 1];
  if (!world.faults || percent === undefined || setting.stationCode !== plan.small.station) {
    return readGauge(tail, now.fuelKg, day, world.faults, now.random);
  }
  const step = tail.performance.type.gaugeStepKg;
  return roundTo(now.arrivalReadingKg - burnKg + massKg * (1 + percent / 100), step);
}

/** The refuelling a tail has arranged: one row for each ticket, without counters, checks and slips. */
export function refuel(world: World, state: State, tailIndex: number): DemoRow[] {
  const tail = world.tails[tailIndex];
  const now = state.tails[tailIndex];
  if (tail === undefined || now === undefined) throw new RangeError(`tail: ${tailIndex}, need an index`);
  const setting = settingOf(world, tail, now);
  const { performance, typeIndex } = tail;
  const burn = groundBurn(setting);
  const wantedKg = now.orderKg - now.arrivalReadingKg;
  const massKg = wantedKg * (1 + 0.003 * normal(now.random)) + 0.3 * performance.gaugeNoiseKg;
  now.fuelKg += massKg - burn.trueKg;
  const fuel = sample(setting);
  const departureKg = departureReading(
    setting,
    massKg,
    Number.isNaN(burn.writtenKg) ? 0 : burn.writtenKg,
    state.visits
  );
  const volumeL = meteredL(setting, setting.vehicle, massKg, fuel.densityKgM3);
  const { densityKgM3: _, ...papers } = fuel;
  const station = demoStations[now.station];
  const row: DemoRow = {
    layout: 'plain',
    refuelling: ++state.refuellings,
    ticket: '',
    startMinute: now.endMinute - 4 - Math.round(volumeL / performance.flowLMin),
    endMinute: now.endMinute,
    station: now.station,
    stationCode: setting.stationCode,
    tail: tail.registration,
    typeIndex,
    flight: `QUIL${100 + 13 * now.station + now.destination}`,
    supplier: setting.supplier,
    agent: station?.agent ?? setting.supplier,
    vehicle: setting.vehicle,
    vehicleCode: world.vehicles[setting.vehicle]?.entry.code ?? '',
    meter: '',
    grade: 'Jet A-1',
    ...papers,
    volumeL,
    meterStartL: NaN,
    meterStopL: NaN,
    arrivalFuelKg: now.arrivalReadingKg,
    departureFuelKg: departureKg,
    groundBurnKg: burn.writtenKg,
    defuelledKg: NaN,
    orderedKg: now.orderKg,
    waterTest: 'passed',
    visual: 'passed',
    conductivityPSM: chance(now.random, 0.7) ? Math.round(170 * Math.exp(0.35 * normal(now.random))) : NaN,
    remarks: '',
    hiddenBeforeKg: now.hiddenBeforeKg,
    hiddenAfterKg: hiddenKg(tail, now.fuelKg, setting.day, world.faults),
    previousDepartureKg: now.previousDepartureKg,
    cells: null,
    extraCells: 0,
    isTwice: false
  };
  now.previousDepartureKg = departureKg;
  const rows = [row];
  if (chance(now.random, performance.split)) rows.push(shareWithSecond(setting, row));
  if (chance(now.random, 0.001)) rows.push(defuel(setting, state, row));
  return rows;
}

/** Splits a ticket in two: a second vehicle delivers part of the volume, minutes later, and repeats the gauges. */
function shareWithSecond(setting: Setting, row: DemoRow): DemoRow {
  const { world, now, farm } = setting;
  const others = (world.vehiclesOfFarm[farm] ?? []).filter((index) => index !== row.vehicle);
  const vehicle = others.length === 0 ? row.vehicle : pick(now.random, others);
  const wholeL = row.volumeL;
  row.volumeL = Math.round(wholeL * between(now.random, 0.35, 0.65));
  return {
    ...row,
    vehicle,
    vehicleCode: world.vehicles[vehicle]?.entry.code ?? '',
    volumeL: wholeL - row.volumeL,
    startMinute: row.startMinute + 2,
    endMinute: row.endMinute + 3,
    planted: [...row.planted]
  };
}

/** Takes fuel off again after the refuelling, for a lighter departure: a ticket of its own without a volume. */
function defuel(setting: Setting, state: State, row: DemoRow): DemoRow {
  const { world, tail, now, day } = setting;
  const offKg = roundTo(now.fuelKg * between(now.random, 0.04, 0.1), 10);
  now.fuelKg -= offKg;
  now.departMinute += 40;
  const departureFuelKg = readGauge(tail, now.fuelKg, day, world.faults, now.random);
  now.previousDepartureKg = departureFuelKg;
  return {
    ...row,
    refuelling: ++state.refuellings,
    startMinute: row.endMinute + 15,
    endMinute: row.endMinute + 35,
    volumeL: NaN,
    densityObservedKgM3: NaN,
    densityTemperatureC: NaN,
    fuelTemperatureC: NaN,
    arrivalFuelKg: row.departureFuelKg,
    departureFuelKg,
    groundBurnKg: NaN,
    defuelledKg: offKg,
    orderedKg: NaN,
    conductivityPSM: NaN,
    hiddenBeforeKg: row.hiddenAfterKg,
    hiddenAfterKg: hiddenKg(tail, now.fuelKg, day, world.faults),
    previousDepartureKg: NaN,
    planted: []
  };
}
