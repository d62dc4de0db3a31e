import { densityAt } from '#lib/core/density/index.ts';
import { plan } from './plan.ts';
import { plantProportion } from './plant.ts';
import { normal, uniform } from './random.ts';
import type { DemoRow } from './row.ts';
import type { Setting } from './setting.ts';
import { fuelTemperatureC } from './weather.ts';

const tenth = (value: number): number => Math.round(value * 10) / 10;
const half = (value: number): number => Math.round(value * 2) / 2;

/** The columns of a row that the sample and the papers fill. */
export type Papers = Pick<
  DemoRow,
  | 'batch'
  | 'densityObservedKgM3'
  | 'densityTemperatureC'
  | 'fuelTemperatureC'
  | 'densityCertificate15KgM3'
  | 'planted'
>;

/** The density a person writes by habit instead of the reading, with its planting; null: the reading. */
function writtenByHabit(
  { world, now, day, stationCode }: Setting,
  temperatureC: number,
  reading15KgM3: number
): { densityKgM3: number; kind: string; story: number } | null {
  if (!world.faults) return null;
  const draw = uniform(now.random);
  const { hotDays, tidyDensity } = plan;
  const isHot = day >= hotDays.fromDay && temperatureC > hotDays.aboveC;
  if (stationCode === hotDays.station && isHot && draw < hotDays.share) {
    return { densityKgM3: reading15KgM3, kind: 'density-at-15-as-observed', story: 4 };
  }
  if (stationCode === tidyDensity.station && draw < tidyDensity.share) {
    return { densityKgM3: tidyDensity.densityKgM3, kind: 'default-density', story: 5 };
  }
  return null;
}

/** What the sample and the papers say of the fuel, and its true density at the meter, kg/m3. */
export function sample(setting: Setting): { papers: Papers; densityKgM3: number } {
  const { world, now, day, farm, vehicle } = setting;
  const random = now.random;
  const fuel = world.fuel[farm]?.[day];
  if (fuel === undefined) throw new RangeError(`fuel: farm ${farm} on day ${day}, need a day of the demo`);
  const isHydrant = world.vehicles[vehicle]?.entry.code.charAt(5) === 'H';
  const temperatureC =
    fuelTemperatureC(world.spells, now.station, now.endMinute, isHydrant) + 0.8 * normal(random);
  const density15KgM3 = fuel.certificateKgM3 + 0.25 * normal(random);
  const sampleC = temperatureC + 0.6 * normal(random);
  const readingNoiseKgM3 = 0.25 * normal(random);
  // A digital densitometer: no glass correction.
  const readKgM3 = tenth(densityAt(density15KgM3, sampleC, '1980') + readingNoiseKgM3);
  const planted: DemoRow['planted'] = [];
  const habit = writtenByHabit(setting, tenth(temperatureC), tenth(density15KgM3 + readingNoiseKgM3));
  if (habit !== null) {
    const { kind, story, densityKgM3 } = habit;
    plantProportion({ planted }, { kind, field: 'densityObserved', story }, readKgM3, densityKgM3);
  }
  const papers = {
    batch: fuel.batch,
    densityObservedKgM3: habit?.densityKgM3 ?? readKgM3,
    densityTemperatureC: half(sampleC),
    fuelTemperatureC: tenth(temperatureC),
    densityCertificate15KgM3: fuel.certificateKgM3,
    planted
  };
  return { papers, densityKgM3: densityAt(density15KgM3, temperatureC, '1980') };
}
