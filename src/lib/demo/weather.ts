import { demoDays, minutesPerDay } from './calendar.ts';
import { normal, seeded } from './random.ts';
import { demoStations } from './stations.ts';

/** Departure of each day's mean from the season, degC, by station and day: warm and cool spells. */
export type Spells = readonly Float64Array[];

const persistence = 0.7;
const spellC = 2.2;

/** Warm and cool spells of every station. */
export function spellsOf(seed: number): Spells {
  return demoStations.map((_, station) => {
    const random = seeded(seed, 5, station);
    const spells = new Float64Array(demoDays + 2);
    let spell = 0;
    for (let day = 0; day < spells.length; day++) {
      spell = persistence * spell + spellC * Math.sqrt(1 - persistence ** 2) * normal(random);
      spells[day] = spell;
    }
    return spells;
  });
}

/** Day of the year of the demo's first day, 1 April. */
const firstDayOfYear = 91;

/**
 * Temperature of the fuel in the vehicle, degC: hydrant fuel follows the season alone, fuel in a refueller half of
 * the spell and of the hour as well.
 */
export function fuelTemperatureC(
  spells: Spells,
  station: number,
  minute: number,
  isHydrant: boolean
): number {
  const place = demoStations[station];
  if (place === undefined) throw new RangeError(`temperature: station ${station}, need an index of the demo`);
  const { meanC, seasonC, dailyC, warmestDay } = place.climate;
  const day = minute / minutesPerDay;
  const season = Math.cos((2 * Math.PI * (day + firstDayOfYear - warmestDay)) / 365.25);
  if (isHydrant) return meanC + 0.75 * seasonC * season;
  const localHour = ((minute + place.utcOffsetMinutes) / 60) % 24;
  const hour = Math.cos((2 * Math.PI * (localHour - 15)) / 24);
  const spell = spells[station]?.[Math.floor(day)] ?? 0;
  return meanC + seasonC * season + 0.7 * spell + 0.5 * dailyC * hour;
}
