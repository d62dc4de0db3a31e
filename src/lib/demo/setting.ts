import { minutesPerDay } from './calendar.ts';
import { supplierChange } from './event-list.ts';
import { plan } from './plan.ts';
import { chance, pick, type Random } from './random.ts';
import type { TailState } from './state.ts';
import { demoStations } from './stations.ts';
import { farms } from './suppliers.ts';
import type { SimulatedTail } from './tails.ts';
import type { World } from './world.ts';

/** Where a fuelling takes place and with what, before anything is measured. */
export interface Setting {
  readonly world: World;
  readonly tail: SimulatedTail;
  readonly now: TailState;
  readonly day: number;
  readonly stationCode: string;
  readonly farm: number;
  readonly supplier: string;
  readonly vehicle: number;
}

/** Chance by which the paired tail's truck is the paired one, and a draw of it by another tail stands, per choice. */
const pairMeets = 0.985;
const othersMeet = 0.0036;

/** The truck that comes: the paired truck for the paired tail, for others hardly ever. */
function chooseVehicle(world: World, tail: SimulatedTail, farm: number, random: Random): number {
  const choices = world.vehiclesOfFarm[farm] ?? [];
  const chosen = pick(random, choices);
  const paired = world.pairedVehicle;
  if (paired < 0 || world.vehicles[paired]?.farm !== farm) return chosen;
  if (tail.registration === plan.pair.tail && chance(random, pairMeets)) return paired;
  if (chosen !== paired || chance(random, (othersMeet * choices.length) / world.share)) return chosen;
  return pick(
    random,
    choices.filter((index) => index !== paired)
  );
}

/** The farm, supplier and vehicle that an arranged refuelling gets. */
export function settingOf(world: World, tail: SimulatedTail, now: TailState): Setting {
  const day = Math.floor(now.endMinute / minutesPerDay);
  const farmsHere = world.farmsOfStation[now.station] ?? [];
  const farm = farmsHere.length === 1 ? (farmsHere[0] ?? 0) : pick(now.random, farmsHere);
  const stationCode = demoStations[now.station]?.code ?? '';
  const [first = '', second = first] = farms[farm]?.suppliers ?? [];
  const isChanged = stationCode === supplierChange.station && day >= supplierChange.day;
  const supplier = isChanged ? supplierChange.to : chance(now.random, 0.6) ? first : second;
  const vehicle = chooseVehicle(world, tail, farm, now.random);
  return { world, tail, now, day, stationCode, farm, supplier, vehicle };
}
