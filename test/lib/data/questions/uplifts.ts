import { Ledger } from '#lib/data/ledger/index.ts';
import { createContext, type QuestionContext } from '#lib/data/questions/index.ts';
import { defaultSettings, exampleLimits, type Settings } from '#lib/data/settings/index.ts';
import { batchOf, type Literal } from '../ledger/rows-of.ts';

/** 3 % of metered mass without a floor, so that an example is easy to do in the head. */
const settings: Settings = {
  ...defaultSettings,
  limitSets: [{ ...exampleLimits, width: { percent: 3, floorKg: 0, floorGaugeSteps: 0 } }]
};

export function contextOf(records: readonly Literal[]): QuestionContext {
  const ledger = new Ledger();
  ledger.append({ id: 'a', name: 'a.csv', sha256: 'a'.repeat(64) }, batchOf(records));
  ledger.recompute(settings, [], []);
  return createContext(ledger, settings);
}

/** 10,000 L at 800 kg/m3 and 15 C are 8,000 kg: the discrepancy is the gauge uplift less that. */
export function uplift(index: number, station: string, discrepancyKg: number, more: Literal = {}): Literal {
  return {
    ticket: String(index),
    time: `2031-${String(1 + (index % 3)).padStart(2, '0')}-10T${String(index % 24).padStart(2, '0')}:00:00Z`,
    station,
    tail: `Q7-${index}`,
    volume: 10_000,
    densityObserved: 800,
    densityTemperature: 15,
    fuelTemperature: 15,
    arrivalFuel: 2_000,
    departureFuel: 10_000 + discrepancyKg,
    groundBurn: 0,
    ...more
  };
}
