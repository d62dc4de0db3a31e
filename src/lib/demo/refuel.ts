import { hiddenKg, readGauge } from './gauge.ts';
import { meterPercent } from './meters.ts';
import { plan } from './plan.ts';
import { between, chance, exponential, normal, pick, uniform } from './random.ts';
import type { DemoRow } from './row.ts';
import { type Papers, sample } from './sample.ts';
import { type Setting, settingOf } from './setting.ts';
import type { State } from './state.ts';
import { demoStations } from './stations.ts';
import type { World } from './world.ts';

const roundTo = (value: number, step: number): number => Math.round(value / step) * step;

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

/** What one refuelling comes to, in figures as they are written. */
interface Amounts {
  readonly volumeL: number;
  readonly departureFuelKg: number;
  readonly groundBurnKg: number;
  readonly conductivityPSM: number;
}

/**
 * The row of one ticket; what comes in the order of time (number, counter, checks, slips) is filled in later. One
 * literal and no spreads: engines keep such rows compact, which is ten times as fast.
 */
function ticketRow(setting: Setting, refuelling: number, papers: Papers, amounts: Amounts): DemoRow {
  const { world, tail, now, stationCode, supplier, vehicle, day } = setting;
  return {
    layout: 'plain',
    refuelling,
    ticket: '',
    startMinute: now.endMinute - 4 - Math.round(amounts.volumeL / tail.performance.flowLMin),
    endMinute: now.endMinute,
    station: now.station,
    stationCode,
    tail: tail.registration,
    typeIndex: tail.typeIndex,
    flight: `QUIL${100 + 13 * now.station + now.destination}`,
    supplier,
    agent: demoStations[now.station]?.agent ?? supplier,
    vehicle,
    vehicleCode: world.vehicles[vehicle]?.entry.code ?? '',
    meter: '',
    grade: 'Jet A-1',
    batch: papers.batch,
    volumeL: amounts.volumeL,
    meterStartL: NaN,
    meterStopL: NaN,
    densityObservedKgM3: papers.densityObservedKgM3,
    densityTemperatureC: papers.densityTemperatureC,
    fuelTemperatureC: papers.fuelTemperatureC,
    densityCertificate15KgM3: papers.densityCertificate15KgM3,
    arrivalFuelKg: now.arrivalReadingKg,
    departureFuelKg: amounts.departureFuelKg,
    groundBurnKg: amounts.groundBurnKg,
    defuelledKg: NaN,
    orderedKg: now.orderKg,
    waterTest: 'notRequired',
    visual: 'notRequired',
    conductivityPSM: amounts.conductivityPSM,
    remarks: '',
    hiddenBeforeKg: now.hiddenBeforeKg,
    hiddenAfterKg: hiddenKg(tail, now.fuelKg, day, world.faults),
    previousDepartureKg: now.previousDepartureKg,
    cells: null,
    extraCells: 0,
    isTwice: false,
    planted: papers.planted
  };
}

/** Loads what was ordered and reads the gauges; the mass, kg, and the row of one ticket for all of it. */
function load(setting: Setting, state: State, densityKgM3: number, papers: Papers): [number, DemoRow] {
  const { tail, now } = setting;
  const random = now.random;
  const burn = groundBurn(setting);
  const wantedKg = now.orderKg - now.arrivalReadingKg;
  const massKg = wantedKg * (1 + 0.003 * normal(random)) + 0.3 * tail.performance.gaugeNoiseKg;
  now.fuelKg += massKg - burn.trueKg;
  const writtenBurnKg = Number.isNaN(burn.writtenKg) ? 0 : burn.writtenKg;
  const departureFuelKg = departureReading(setting, massKg, writtenBurnKg, state.visits);
  const volumeL = meteredL(setting, setting.vehicle, massKg, densityKgM3);
  const row = ticketRow(setting, ++state.refuellings, papers, {
    volumeL,
    departureFuelKg,
    groundBurnKg: burn.writtenKg,
    conductivityPSM: chance(random, 0.7) ? Math.round(170 * Math.exp(0.35 * normal(random))) : NaN
  });
  now.previousDepartureKg = departureFuelKg;
  return [massKg, row];
}

/** The refuelling a tail has arranged: one row for each ticket, without counters, checks and slips. */
export function refuel(world: World, state: State, tailIndex: number): DemoRow[] {
  const tail = world.tails[tailIndex];
  const now = state.tails[tailIndex];
  if (tail === undefined || now === undefined) throw new RangeError(`tail: ${tailIndex}, need an index`);
  const setting = settingOf(world, tail, now);
  const { papers, densityKgM3 } = sample(setting);
  const [massKg, row] = load(setting, state, densityKgM3, papers);
  const rows = [row];
  if (chance(now.random, tail.performance.split)) {
    rows.push(shareWithSecond(setting, row, massKg, densityKgM3));
  }
  if (chance(now.random, 0.001)) rows.push(defuel(setting, state, row));
  return rows;
}

/** Splits a ticket in two: a second vehicle delivers part of the mass, minutes later, and repeats the gauges. */
function shareWithSecond(setting: Setting, row: DemoRow, massKg: number, densityKgM3: number): DemoRow {
  const { world, now, farm } = setting;
  const others = (world.vehiclesOfFarm[farm] ?? []).filter((index) => index !== row.vehicle);
  const vehicle = others.length === 0 ? row.vehicle : pick(now.random, others);
  const share = between(now.random, 0.35, 0.65);
  row.volumeL = meteredL(setting, row.vehicle, share * massKg, densityKgM3);
  return {
    ...row,
    vehicle,
    vehicleCode: world.vehicles[vehicle]?.entry.code ?? '',
    volumeL: meteredL(setting, vehicle, (1 - share) * massKg, densityKgM3),
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
