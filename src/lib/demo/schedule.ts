import { minutesPerDay } from './calendar.ts';
import { performances } from './fleet.ts';
import { hiddenKg, readGauge } from './gauge.ts';
import { distanceNm } from './network.ts';
import { plan } from './plan.ts';
import { between, chance, normal, type Random, uniform } from './random.ts';
import type { State, TailState } from './state.ts';
import { demoStations, stationIndex } from './stations.ts';
import type { SimulatedTail } from './tails.ts';
import type { World } from './world.ts';

const hub = stationIndex('JARV');
const opened = stationIndex(plan.opening.station);
const tiny = stationIndex(plan.small.station);
const taxiMinutes = 25;
const morningHour = 5.2;
const tinyVisitors = 6;
const firstTern = performances.slice(0, 2).reduce((sum, entry) => sum + entry.tails.length, 0);

const dayOf = (minute: number): number => Math.floor(minute / minutesPerDay);

/** Burn of a flight as planned, kg. */
function plannedBurnKg(tail: SimulatedTail, from: number, to: number): number {
  return tail.performance.fixedBurnKg + tail.performance.burnKgPerNm * distanceNm(from, to);
}

/** Whether this tail's next departure from the hub is one of the rare ones to the tiny station. */
function isVisit(state: State, tailIndex: number, station: number, day: number): boolean {
  const { firstDay, everyDays, percents } = plan.small;
  return (
    station === hub &&
    state.visits < percents.length &&
    tailIndex === firstTern + (state.visits % tinyVisitors) &&
    day >= firstDay + everyDays * state.visits
  );
}

/** Whether a flight to the new station goes: none before it opens, fewer in its first weeks. */
function isServed(day: number, random: Random): boolean {
  const { fromDay, gallonsUntilDay, earlyShare } = plan.opening;
  return day >= fromDay && (day >= gallonsUntilDay || chance(random, earlyShare));
}

function ordinaryDestination(tail: SimulatedTail, station: number, day: number, random: Random): number {
  const departures = tail.routes[station];
  if (departures === undefined || departures.totalWeight === 0) return hub;
  const { destinations, weights, totalWeight } = departures;
  for (;;) {
    let left = totalWeight * uniform(random);
    let found = destinations[0] ?? hub;
    for (let index = 0; index < destinations.length; index++) {
      found = destinations[index] ?? hub;
      left -= weights[index] ?? 0;
      if (left < 0) break;
    }
    if (found !== opened || isServed(day, random)) return found;
  }
}

/** Total on board that the crew asks for, kg. */
function orderFor(tail: SimulatedTail, station: number, destination: number, random: Random): number {
  const { performance } = tail;
  const burnKg = plannedBurnKg(tail, station, destination);
  let wantedKg = burnKg + performance.reserveKg + performance.extraKg * Math.exp(0.6 * normal(random));
  if (tail.isShuttle && station === hub) wantedKg += 1.02 * burnKg;
  else if (!tail.isShuttle && destination !== tiny && chance(random, performance.tankering)) {
    wantedKg += between(random, 0.3, 1) * burnKg;
  }
  const step = performance.orderStepKg;
  const mostKg = Math.floor((0.965 * performance.type.capacityKg) / step) * step;
  return Math.min(Math.ceil(wantedKg / step) * step, mostKg);
}

/** Minute of departure after an arrival; late arrivals often wait for the morning. */
function departureAfter(tail: SimulatedTail, at: number, station: number, random: Random): number {
  const { turnMinutes, nightStop } = tail.performance;
  const offset = demoStations[station]?.utcOffsetMinutes ?? 0;
  const localHour = (((at + offset) / 60) % 24) + 0;
  const isLate = localHour >= 21.5 || localHour < 3.5;
  if (!isLate || !chance(random, nightStop)) return at + Math.round(between(random, ...turnMinutes));
  const hoursToMorning = (morningHour - localHour + 24) % 24;
  return at + Math.round(60 * (hoursToMorning + between(random, 0, 2)));
}

/** Minute at which fuelling ends: before departure, or, for half of the long stays, soon after arrival. */
function fuellingEnd(at: number, depart: number, random: Random): number {
  const stay = depart - at;
  if (stay > 240 && chance(random, 0.5)) return at + Math.round(between(random, 35, 60));
  return Math.max(at + Math.min(20, stay - 8), depart - Math.round(between(random, 12, 25)));
}

/** Flies from where the tail is to its destination and returns the minute of arrival. */
function fly(world: World, tail: SimulatedTail, now: TailState): number {
  const burnKg = plannedBurnKg(tail, now.station, now.destination) * (1 + 0.03 * normal(now.random));
  const flown = taxiMinutes + (60 * distanceNm(now.station, now.destination)) / tail.performance.speedKt;
  const idle = (world.idleness - 1) * (flown + 60);
  now.fuelKg = Math.max(0.1 * tail.performance.reserveKg, now.fuelKg - burnKg);
  now.station = now.destination;
  return now.departMinute + Math.round(flown + idle);
}

/** Chooses the next flight of a tail on the ground at a minute, and what it needs for it. */
function arrange(state: State, tail: SimulatedTail, tailIndex: number, now: TailState, at: number): void {
  const day = dayOf(at);
  now.departMinute = departureAfter(tail, at, now.station, now.random);
  if (isVisit(state, tailIndex, now.station, day)) {
    state.visits++;
    now.destination = tiny;
  } else now.destination = ordinaryDestination(tail, now.station, day, now.random);
  now.orderKg = orderFor(tail, now.station, now.destination, now.random);
}

/** Brings a tail from its departure to its next fuelling, over flights for which it has enough. */
export function advance(world: World, state: State, tailIndex: number): void {
  const tail = world.tails[tailIndex];
  const now = state.tails[tailIndex];
  if (tail === undefined || now === undefined) throw new RangeError(`tail: ${tailIndex}, need an index`);
  const { smallestUpliftKg, reserveKg } = tail.performance;
  let at = now.endMinute < 0 ? now.departMinute : fly(world, tail, now);
  for (;;) {
    arrange(state, tail, tailIndex, now, at);
    const neededKg = plannedBurnKg(tail, now.station, now.destination) + 0.6 * reserveKg;
    const isEnough = now.fuelKg >= neededKg && now.orderKg - now.fuelKg < smallestUpliftKg;
    const refuelsAnyway = tail.isShuttle && now.station !== hub && chance(now.random, 0.02);
    if (!isEnough || refuelsAnyway) break;
    at = fly(world, tail, now);
  }
  now.endMinute = fuellingEnd(at, now.departMinute, now.random);
  now.hiddenBeforeKg = hiddenKg(tail, now.fuelKg, dayOf(at), world.faults);
  now.arrivalReadingKg = readGauge(tail, now.fuelKg, dayOf(at), world.faults, now.random);
  const stepKg = tail.performance.orderStepKg;
  const leastKg = Math.ceil((now.arrivalReadingKg + smallestUpliftKg) / stepKg) * stepKg;
  now.orderKg = Math.max(now.orderKg, leastKg);
}
