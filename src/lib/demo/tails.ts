import { type Performance, performances, registrationStart } from './fleet.ts';
import { longRoutes, type Routes, shortRoutes, shuttleRoutes, usualRoutes } from './network.ts';
import { plan } from './plan.ts';
import { normal, seeded } from './random.ts';

/** An aircraft as simulated: its type, where it flies, and how its gauges read apart from what is planted. */
export interface SimulatedTail {
  readonly registration: string;
  /** Index of its type in the register. */
  readonly typeIndex: number;
  readonly performance: Performance;
  readonly routes: Routes;
  /** Whether it takes the fuel for out and back at the hub. */
  readonly isShuttle: boolean;
  /** What its gauges read too much, %. */
  readonly gainPercent: number;
}

/** Spread of innocent gauges, %. */
const innocentSpreadPercent = 0.1;

/** Registrations of a denser world, after those told: `KFA`, `KFB` and on, with a digit when letters run out. */
function furtherTail(start: string, index: number): string {
  const second = start.charCodeAt(1) + 1;
  const block = Math.floor(index / 26);
  const span = 90 - second + 1;
  const round = Math.floor(block / span);
  const letters = start.charAt(0) + String.fromCharCode(second + (block % span), 65 + (index % 26));
  return round === 0 ? letters : `${letters}${round}`;
}

function routesOf(registration: string, typeIndex: number, faults: boolean): Routes {
  if (faults && registration === plan.paradox.tail) return shortRoutes;
  if (faults && registration === plan.pair.tail) return shuttleRoutes;
  // Long sectors keep the drifting tail's plain rate below that of the paradox, as drift hides in rates.
  if (faults && registration === plan.drift.tail) return longRoutes;
  const usual = usualRoutes[typeIndex];
  if (usual === undefined) throw new RangeError(`routes: type ${typeIndex}, need an index of the register`);
  return usual;
}

/** All tails of the world; `scale` 1 is the 24 told. */
export function simulatedTails(seed: number, scale: number, faults: boolean): SimulatedTail[] {
  const random = seeded(seed, 2);
  const named = (more: boolean): SimulatedTail[] =>
    performances.flatMap((performance, typeIndex) => {
      const start = performance.tails[0] ?? '';
      const further = Math.round(performance.tails.length * (scale - 1));
      const names = more
        ? Array.from({ length: further }, (_, index) => furtherTail(start, index))
        : performance.tails;
      return names.map((name) => {
        const registration = registrationStart + name;
        return {
          registration,
          typeIndex,
          performance,
          routes: routesOf(registration, typeIndex, faults),
          isShuttle: faults && registration === plan.pair.tail,
          gainPercent: innocentSpreadPercent * normal(random)
        };
      });
    });
  return [...named(false), ...named(true)];
}
