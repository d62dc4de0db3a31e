import { kilogramsPerPound, litresPerUsGallon } from '#lib/core/units/index.ts';
import { minutesPerDay } from './calendar.ts';
import { plan } from './plan.ts';
import { plant, plantProportion } from './plant.ts';
import { chance } from './random.ts';
import type { DemoRow } from './row.ts';
import type { State } from './state.ts';
import { demoStations } from './stations.ts';
import type { World } from './world.ts';

const wanted = (world: World, count: number): number => Math.max(1, Math.round(count * world.share));

/** Gallons in the litre column: a new station's old form. The totaliser is not copied to it. */
function writeGallons(row: DemoRow): void {
  const litres = row.volumeL;
  row.volumeL = Math.round(litres / litresPerUsGallon);
  row.meterStartL = NaN;
  row.meterStopL = NaN;
  const factor = 1 / litresPerUsGallon;
  plant(row, { kind: 'us-gallons-as-litres', field: 'volume', story: 7, factor }, litres, row.volumeL);
}

/** Pounds in the kilogram columns of the aircraft's half. */
export function writePounds(row: DemoRow, story: number): void {
  const departureKg = row.departureFuelKg;
  const inPounds = (massKg: number): number => Math.round(massKg / kilogramsPerPound);
  row.arrivalFuelKg = inPounds(row.arrivalFuelKg);
  row.departureFuelKg = inPounds(departureKg);
  row.groundBurnKg = inPounds(row.groundBurnKg);
  row.hiddenBeforeKg = inPounds(row.hiddenBeforeKg);
  row.hiddenAfterKg = inPounds(row.hiddenAfterKg);
  const planting = { kind: 'pounds-as-kilograms', field: 'departureFuel', story };
  plant(row, { ...planting, factor: 1 / kilogramsPerPound }, departureKg, row.departureFuelKg);
}

/** Last departure fuel copied into the arrival column. */
export function writeCopiedArrival(row: DemoRow, story: number): void {
  const arrivalKg = row.arrivalFuelKg;
  row.arrivalFuelKg = row.previousDepartureKg;
  plantProportion(row, { kind: 'arrival-copied', field: 'arrivalFuel', story }, arrivalKg, row.arrivalFuelKg);
}

function isNightShift(row: DemoRow): boolean {
  const { station, fromDay, fromHour, untilHour } = plan.copied;
  if (row.stationCode !== station || row.endMinute < fromDay * minutesPerDay) return false;
  const hour = ((row.endMinute + (demoStations[row.station]?.utcOffsetMinutes ?? 0)) / 60) % 24;
  return hour >= fromHour || hour < untilHour;
}

/** Writes what the people of a planted story write. True where it did, so that nothing else befalls the row. */
export function writeStory(world: World, state: State, row: DemoRow): boolean {
  const day = Math.floor(row.endMinute / minutesPerDay);
  const { opening, copied } = plan;
  if (!(row.volumeL > 0)) return false;
  if (row.stationCode === opening.station && day >= opening.fromDay) {
    if (day < opening.gallonsUntilDay) {
      writeGallons(row);
      return true;
    }
    const isPounds = day < opening.poundsUntilDay && state.pounds < wanted(world, opening.pounds);
    if (isPounds && chance(state.typing, 0.06)) {
      state.pounds++;
      writePounds(row, 7);
      return true;
    }
  }
  const isCopied = state.copies < wanted(world, copied.count) && row.previousDepartureKg > 0;
  if (isCopied && isNightShift(row) && chance(state.typing, 0.3)) {
    state.copies++;
    writeCopiedArrival(row, 12);
    return true;
  }
  return false;
}
