import { describe, expect, it } from 'vitest';
import { Ledger } from '#lib/data/ledger/index.ts';
import { answer, createContext } from '#lib/data/questions/index.ts';
import { defaultSettings } from '#lib/data/settings/index.ts';
import { batchOf, type Literal } from '../ledger/rows-of.ts';

/** 10,000 L at 800 kg/m3 and 15 C are 8,000 kg: the gauge says so many kg more. */
function uplift(index: number, tail: string, discrepancyKg: number): Literal {
  return {
    ticket: String(index),
    time: new Date(Date.UTC(2031, 0, 1, 6 * index)).toISOString(),
    station: 'JARV',
    tail,
    vehicle: `H${index % 5}`,
    volume: 10_000,
    densityObserved: 800,
    densityTemperature: 15,
    fuelTemperature: 15,
    arrivalFuel: 2_000,
    departureFuel: 10_000 + discrepancyKg,
    groundBurn: 0
  };
}

function contextOf(records: readonly Literal[]) {
  const ledger = new Ledger();
  ledger.append({ id: 'a', name: 'a.csv', sha256: 'a'.repeat(64) }, batchOf(records));
  ledger.recompute(defaultSettings, [], []);
  return createContext(ledger, defaultSettings);
}

describe('what is an aircraft’s own', () => {
  // Four tails, 60 uplifts each, spread in a fixed pattern about -40, 0, 40 and 80 kg.
  const fleet = Array.from({ length: 240 }, (_none, i) =>
    uplift(i, `Q7-KE${'ABCD'.charAt(i % 4)}`, 40 * ((i % 4) - 1) + 20 * ((i % 7) - 3))
  );

  it('is not blurred by the one wild record of a misspelt tail', () => {
    const before = answer(contextOf(fleet), 'attribution', { filter: {} });
    const after = answer(contextOf([...fleet, uplift(240, 'Q7-KEO', -3_000)]), 'attribution', {
      filter: {}
    });
    if (!before.estimable || !after.estimable) throw new Error('fit: need an estimable one');
    expect(after.tails.map(({ name }) => name)).not.toContain('Q7-KEO');
    expect(after.tailSpread).toBeCloseTo(before.tailSpread, 6);
  });
});
