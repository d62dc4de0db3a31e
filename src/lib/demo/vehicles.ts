import { farms } from './suppliers.ts';
import { type Random, normal, seeded, whole } from './random.ts';

/** A refueller or hydrant dispenser, in the shape of the vehicle register. */
export interface DemoVehicle {
  readonly code: string;
  readonly station: string;
  readonly accuracyClassPercent: number;
  readonly provedMs: null;
  readonly meterDigits: number;
}

interface Pool {
  readonly station: string;
  /** Which tank farm of the station fills it: JGAL has two. */
  readonly farm: number;
  readonly kind: 'H' | 'R';
  readonly firstNumber: number;
  readonly count: number;
}

const counts: readonly (readonly [station: string, kind: 'H' | 'R', firstNumber: number, count: number])[] = [
  ['JARV', 'H', 201, 20],
  ['JBEL', 'R', 301, 7],
  ['JCOD', 'R', 111, 6],
  ['JDUM', 'R', 211, 6],
  ['JESK', 'R', 421, 5],
  ['JFEN', 'R', 131, 4],
  ['JGAL', 'R', 501, 4],
  ['JGAL', 'R', 511, 4],
  ['JHOS', 'R', 901, 1],
  ['JIVA', 'R', 641, 4],
  ['JKES', 'R', 701, 5],
  ['JLOM', 'R', 801, 4],
  ['JNER', 'R', 161, 2]
];

const pools: readonly Pool[] = counts.map(([station, kind, firstNumber, count], farm) => ({
  station,
  farm,
  kind,
  firstNumber,
  count
}));

/** Digits of every totaliser of the demo. */
export const meterDigits = 8;

/** A vehicle as simulated: register entry, tank farm, and how its first meter counts. */
export interface SimulatedVehicle {
  readonly entry: DemoVehicle;
  readonly farm: number;
  /** What its meter counts too much, %, before any exchange. */
  readonly innocentPercent: number;
  /** Counter when the demo begins, L. */
  readonly counterL: number;
}

/** Spread of innocent meters, %. */
const innocentSpreadPercent = 0.1;

function vehicleOf(pool: Pool, number: number, random: Random): SimulatedVehicle {
  const code = `${pool.station}-${pool.kind}${number}`;
  return {
    entry: { code, station: pool.station, accuracyClassPercent: 0.5, provedMs: null, meterDigits },
    farm: pool.farm,
    innocentPercent: innocentSpreadPercent * normal(random),
    counterL: whole(random, 40_000_000)
  };
}

/** All vehicles, pool by pool; a denser world has more of each, with five-digit numbers. */
export function simulatedVehicles(seed: number, scale: number): SimulatedVehicle[] {
  if (pools.length !== farms.length) throw new RangeError('vehicles: pools, need one for each tank farm');
  const random = seeded(seed, 3);
  const told = pools.flatMap((pool) =>
    Array.from({ length: pool.count }, (_, index) => vehicleOf(pool, pool.firstNumber + index, random))
  );
  const more = pools.flatMap((pool) =>
    Array.from({ length: Math.round(pool.count * (scale - 1)) }, (_, index) =>
      vehicleOf(pool, pool.firstNumber * 100 + index, random)
    )
  );
  return [...told, ...more];
}

/** The vehicle register of the demo: 72 vehicles. */
export const demoVehicles: readonly DemoVehicle[] = simulatedVehicles(0, 1).map((vehicle) => vehicle.entry);
