import { type FuelTable, fuelTable } from './fuel.ts';
import { plan } from './plan.ts';
import { farms } from './suppliers.ts';
import { demoStations } from './stations.ts';
import { type SimulatedTail, simulatedTails } from './tails.ts';
import { type SimulatedVehicle, simulatedVehicles } from './vehicles.ts';
import { type Spells, spellsOf } from './weather.ts';

/** Uplifts of the world as told, near enough; the scale of every other world is measured against it. */
export const standardUplifts = 60_000;
const fewestUplifts = 2_000;
const mostUplifts = 10_000_000;

/** What a caller chooses. The same options give the same bytes. */
export interface DemoOptions {
  readonly seed?: number;
  /** About how many uplifts; more than the standard 60,000 means more tails and vehicles, fewer means idler ones. */
  readonly uplifts?: 'standard' | number;
  /** False: the same fleet and period with nothing planted, for counting false alarms. */
  readonly faults?: boolean;
}

/** The seed of the demo as shown. */
export const demoSeed = 7070;

/** All that does not change while the world runs. */
export interface World {
  readonly seed: number;
  readonly faults: boolean;
  /** Uplifts in proportion to the standard. */
  readonly share: number;
  /** How much longer aircraft wait than in the standard world; 1 or more. */
  readonly idleness: number;
  readonly tails: readonly SimulatedTail[];
  readonly vehicles: readonly SimulatedVehicle[];
  /** Vehicles by tank farm. */
  readonly vehiclesOfFarm: readonly (readonly number[])[];
  /** Tank farms by station. */
  readonly farmsOfStation: readonly (readonly number[])[];
  /** The vehicle that hardly meets any tail but one, or -1 where nothing is planted. */
  readonly pairedVehicle: number;
  readonly fuel: FuelTable;
  readonly spells: Spells;
}

/** The world for some options; throws where the number of uplifts is out of range. */
export function createWorld(options: DemoOptions): World {
  const { seed = demoSeed, uplifts = 'standard', faults = true } = options;
  const wanted = uplifts === 'standard' ? standardUplifts : uplifts;
  if (!(wanted >= fewestUplifts && wanted <= mostUplifts)) {
    throw new RangeError(`uplifts: ${wanted}, need ${fewestUplifts} to ${mostUplifts}`);
  }
  const share = wanted / standardUplifts;
  const scale = Math.max(1, share);
  const vehicles = simulatedVehicles(seed, scale);
  return {
    seed,
    faults,
    share,
    idleness: Math.max(1, 1 / share),
    tails: simulatedTails(seed, scale, faults),
    vehicles,
    vehiclesOfFarm: farms.map((_, farm) => vehicles.flatMap((v, index) => (v.farm === farm ? [index] : []))),
    farmsOfStation: demoStations.map(({ code }) =>
      farms.flatMap((farm, index) => (farm.station === code ? [index] : []))
    ),
    pairedVehicle: faults ? vehicles.findIndex(({ entry }) => entry.code === plan.pair.vehicle) : -1,
    fuel: fuelTable(seed, faults),
    spells: spellsOf(seed)
  };
}
