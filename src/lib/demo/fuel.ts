import { demoDays } from './calendar.ts';
import { normal, seeded, whole } from './random.ts';
import { farms } from './suppliers.ts';
import { plan } from './plan.ts';

/** The fuel a tank farm hands out on one day. */
export interface DayFuel {
  readonly batch: string;
  /** Density at 15 degC on the certificate of the batch, kg/m3, to 0.1. */
  readonly certificateKgM3: number;
}

/** Fuel by farm and day. */
export type FuelTable = readonly (readonly DayFuel[])[];

const batchSpreadKgM3 = 1.8;
const firstDayOfYear = 91;

/** Batches of every tank farm, with the new refinery of the planted story where `faults` is true. */
export function fuelTable(seed: number, faults: boolean): FuelTable {
  return farms.map((farm, index) => {
    const random = seeded(seed, 7, index);
    const days: DayFuel[] = [];
    const phase = whole(random, farm.batchDays);
    const isPlanted = faults && index === plan.refinery.farm;
    let number = 100 + whole(random, 300);
    let fuel: DayFuel | null = null;
    for (let day = 0; day <= demoDays; day++) {
      const isNew = (day + phase) % farm.batchDays === 0 || (isPlanted && day === plan.refinery.fromDay);
      if (fuel === null || isNew) {
        number++;
        const season = Math.cos((2 * Math.PI * (day + firstDayOfYear - 20)) / 365.25);
        const step = isPlanted && day >= plan.refinery.fromDay ? plan.refinery.stepKgM3 : 0;
        const density = farm.densityKgM3 + farm.swingKgM3 * season + step + batchSpreadKgM3 * normal(random);
        const name = `B${String(number).padStart(4, '0')}-${farm.station}`;
        fuel = { batch: name, certificateKgM3: Math.round(density * 10) / 10 };
      }
      days.push(fuel);
    }
    return days;
  });
}
