import { demoStations, stationIndex } from './stations.ts';

/** Distances of the archipelago, nautical miles. */
const distances: readonly (readonly [from: string, to: string, nm: number])[] = [
  ['JARV', 'JBEL', 980],
  ['JARV', 'JCOD', 620],
  ['JARV', 'JDUM', 1180],
  ['JARV', 'JESK', 440],
  ['JARV', 'JFEN', 1320],
  ['JARV', 'JGAL', 2050],
  ['JARV', 'JHOS', 690],
  ['JARV', 'JIVA', 1560],
  ['JARV', 'JKES', 2700],
  ['JARV', 'JLOM', 820],
  ['JARV', 'JNER', 760],
  ['JBEL', 'JDUM', 700],
  ['JBEL', 'JGAL', 1450],
  ['JCOD', 'JLOM', 390],
  ['JDUM', 'JFEN', 560],
  ['JESK', 'JNER', 480],
  ['JGAL', 'JKES', 1900],
  ['JIVA', 'JKES', 1500],
  ['JIVA', 'JLOM', 900]
];

/** Where flights of a table go from one station, and how often in proportion. */
export interface Departures {
  readonly destinations: readonly number[];
  readonly weights: readonly number[];
  readonly totalWeight: number;
}

/** Departures by station index. */
export type Routes = readonly Departures[];

type Pair = readonly [from: string, to: string, weight: number];

const nmByPair = new Map<number, number>();
const pairKey = (from: number, to: number): number => from * demoStations.length + to;
for (const [from, to, nm] of distances) {
  nmByPair.set(pairKey(stationIndex(from), stationIndex(to)), nm);
  nmByPair.set(pairKey(stationIndex(to), stationIndex(from)), nm);
}

/** Distance between two stations by index, nautical miles; throws where no flight goes. */
export function distanceNm(from: number, to: number): number {
  const nm = nmByPair.get(pairKey(from, to));
  if (nm === undefined) throw new RangeError(`distance: ${from} to ${to}, need a pair that is flown`);
  return nm;
}

function routes(pairs: readonly Pair[]): Routes {
  return demoStations.map((_, station) => {
    const ends = pairs.flatMap(([from, to, weight]) => {
      const [a, b] = [stationIndex(from), stationIndex(to)];
      if (a === station) return [{ to: b, weight }];
      return b === station ? [{ to: a, weight }] : [];
    });
    return {
      destinations: ends.map((end) => end.to),
      weights: ends.map((end) => end.weight),
      totalWeight: ends.reduce((sum, end) => sum + end.weight, 0)
    };
  });
}

/** Usual flying of each type, in the order of the type register. */
export const usualRoutes: readonly Routes[] = [
  routes([
    ['JARV', 'JESK', 4.5],
    ['JCOD', 'JLOM', 3],
    ['JARV', 'JCOD', 8],
    ['JARV', 'JNER', 4],
    ['JARV', 'JLOM', 9],
    ['JARV', 'JBEL', 15],
    ['JARV', 'JDUM', 17],
    ['JARV', 'JFEN', 8],
    ['JBEL', 'JDUM', 4],
    ['JARV', 'JIVA', 5],
    ['JBEL', 'JGAL', 4],
    ['JARV', 'JGAL', 11],
    ['JARV', 'JKES', 4]
  ]),
  routes([
    ['JARV', 'JKES', 4],
    ['JARV', 'JGAL', 4],
    ['JGAL', 'JKES', 2],
    ['JARV', 'JIVA', 1.2],
    ['JIVA', 'JKES', 1],
    ['JARV', 'JDUM', 1],
    ['JARV', 'JBEL', 1]
  ]),
  routes([
    ['JARV', 'JESK', 8],
    ['JARV', 'JCOD', 5],
    ['JCOD', 'JLOM', 4],
    ['JARV', 'JLOM', 3],
    ['JARV', 'JNER', 6],
    ['JESK', 'JNER', 3],
    ['JARV', 'JBEL', 2.5],
    ['JBEL', 'JDUM', 2],
    ['JDUM', 'JFEN', 3],
    ['JARV', 'JDUM', 2.5],
    ['JIVA', 'JLOM', 1]
  ])
];

/** The short sectors only. */
export const shortRoutes = routes([
  ['JARV', 'JESK', 7],
  ['JARV', 'JCOD', 3]
]);

/** The longer sectors of the fleet. */
export const longRoutes = routes([
  ['JARV', 'JBEL', 4],
  ['JARV', 'JDUM', 6],
  ['JARV', 'JFEN', 4],
  ['JARV', 'JIVA', 1],
  ['JARV', 'JGAL', 3]
]);

/** Out and back from the hub on one filling. */
export const shuttleRoutes = routes([
  ['JARV', 'JESK', 4],
  ['JARV', 'JCOD', 4],
  ['JARV', 'JLOM', 2]
]);
