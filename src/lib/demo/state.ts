import { type Random, between, seeded, uniform } from './random.ts';
import { stationIndex } from './stations.ts';
import type { World } from './world.ts';

/** An aircraft on the ground with its next fuelling arranged. Fuel is what is in the tanks, not what gauges say. */
export interface TailState {
  readonly random: Random;
  station: number;
  fuelKg: number;
  /** Departure fuel as read at the refuelling before, kg; NaN before the first. */
  previousDepartureKg: number;
  destination: number;
  orderKg: number;
  arrivalReadingKg: number;
  hiddenBeforeKg: number;
  endMinute: number;
  departMinute: number;
}

/** A vehicle's counter, and how many times its meter has been exchanged. */
export interface VehicleState {
  counterL: number;
  exchanges: number;
}

/** All that changes while the world runs: plain data, so that a copy of it is a place to start again from. */
export interface State {
  /** The next day to run. */
  day: number;
  readonly tails: TailState[];
  readonly vehicles: VehicleState[];
  /** Tickets issued, by station. */
  readonly tickets: number[];
  /** Draws of the sample checks and of what is typed wrong. */
  readonly checks: Random;
  readonly typing: Random;
  refuellings: number;
  visits: number;
  positives: number;
  copies: number;
  pounds: number;
}

/** The world's first morning. */
export function firstState(world: World): State {
  return {
    day: 0,
    tails: world.tails.map((tail, index) => {
      const random = seeded(world.seed, 13, index);
      const { reserveKg } = tail.performance;
      return {
        random,
        station: stationIndex('JARV'),
        fuelKg: reserveKg * between(random, 1, 1.3),
        previousDepartureKg: NaN,
        destination: 0,
        orderKg: 0,
        arrivalReadingKg: 0,
        hiddenBeforeKg: 0,
        endMinute: -1,
        departMinute: Math.floor(600 * uniform(random))
      };
    }),
    vehicles: world.vehicles.map((vehicle) => ({ counterL: vehicle.counterL, exchanges: 0 })),
    tickets: world.farmsOfStation.map(() => 4100),
    checks: seeded(world.seed, 17),
    typing: seeded(world.seed, 19),
    refuellings: 0,
    visits: 0,
    positives: 0,
    copies: 0,
    pounds: 0
  };
}
