import { describe, expect, it } from 'vitest';
import { Ledger } from '#lib/data/ledger/index.ts';
import { answer, createContext } from '#lib/data/questions/index.ts';
import { defaultSettings } from '#lib/data/settings/index.ts';
import { seeded } from '../../core/causes/random.ts';
import { batchOf, type Literal } from '../ledger/rows-of.ts';

/** What the gauge of a tail shows beside what it took: kg, from the metered mass and the true departure fuel. */
type Fault = (massKg: number, departureKg: number) => number;

/**
 * Refuellings of each tail: 2,000 to 9,950 kg of 800 kg/m3 at 15 C onto 1,000 to 1,900 kg,
 * with a normal scatter of 40 kg from a fixed seed. The vehicles are drawn by lot.
 */
function refuellings(faults: Readonly<Record<string, Fault>>, each: number): Literal[] {
  const random = seeded(1);
  return Object.entries(faults).flatMap(([tail, fault], t) =>
    Array.from({ length: each }, (_none, i): Literal => {
      const massKg = 2_000 + 50 * ((7 * i + t) % 160);
      const arrivalFuel = 1_000 + 100 * (i % 10);
      return {
        ticket: `${tail}-${i}`,
        time: new Date(Date.UTC(2031, 0, 1, 8 * i, 10 * t)).toISOString(),
        station: 'JARV',
        type: 'AV150',
        tail,
        vehicle: `JARV-H20${random.below(6)}`,
        volume: massKg / 0.8,
        densityObserved: 800,
        densityTemperature: 15,
        fuelTemperature: 15,
        arrivalFuel,
        departureFuel: arrivalFuel + massKg + 40 * random.normal() + fault(massKg, arrivalFuel + massKg),
        'tanksAfter:centre': Math.max(0, arrivalFuel + massKg - 6_000),
        groundBurn: 0
      };
    })
  );
}

function contextOf(faults: Readonly<Record<string, Fault>>, each = 320) {
  const ledger = new Ledger();
  ledger.append({ id: 'a', name: 'a.csv', sha256: 'a'.repeat(64) }, batchOf(refuellings(faults, each)));
  ledger.recompute(defaultSettings, [], []);
  return createContext(ledger, defaultSettings);
}

const none: Fault = () => 0;

describe('a constant in kg or a share of the uplift', () => {
  const faults: Readonly<Record<string, Fault>> = {
    'Q7-KEA': none,
    'Q7-KEB': () => -60,
    'Q7-KEC': (massKg) => 0.015 * massKg,
    'Q7-KED': none,
    'Q7-KEE': none,
    'Q7-KEF': none
  };
  const { lines } = answer(contextOf(faults), 'offsets', { filter: {}, subject: 'tail' });
  const line = (name: string) => lines.find((each) => each.name === name);

  it.each([
    ['Q7-KEB', 'constant', -60, 0],
    ['Q7-KEC', 'share', 0, 1.5],
    ['Q7-KED', 'neither', 0, 0]
  ] as const)('%s is %s: %f kg and %f percent', (name, kind, constantKg, sharePercent) => {
    const found = line(name);
    expect(found?.kind).toBe(kind);
    const { constantKg: constant, sharePercent: share } = found ?? {
      constantKg: { value: NaN, error: NaN },
      sharePercent: { value: NaN, error: NaN }
    };
    expect(Math.abs(constant.value - constantKg)).toBeLessThan(3 * constant.error);
    expect(Math.abs(share.value - sharePercent)).toBeLessThan(3 * share.error);
    expect(constant.error).toBeLessThan(10);
  });

  it('is not said of what all have in common', () => {
    const shared = Object.fromEntries(
      Object.entries(faults).map(([name, fault]): [string, Fault] => [
        name,
        (kg, departureKg) => fault(kg, departureKg) - 80 + 0.01 * kg
      ])
    );
    const again = answer(contextOf(shared), 'offsets', { filter: {}, subject: 'tail' }).lines;
    expect(again.map(({ name, kind }) => [name, kind]).sort()).toEqual(
      lines.map(({ name, kind }) => [name, kind]).sort()
    );
  });

  it('is not said of fewer than 50 refuellings', () => {
    const few = answer(contextOf(faults, 45), 'offsets', { filter: {}, subject: 'tail' });
    expect(few).toMatchObject({ estimable: true, lines: [], leftOut: 6 });
  });
});

describe('one gauge by fuel level', () => {
  const sticking: Fault = (_massKg, departureKg) => (departureKg > 10_000 ? -250 : 0);
  const context = contextOf({
    ...Object.fromEntries(Array.from('ACDEFGHIJKLM', (letter) => [`Q7-KE${letter}`, none])),
    'Q7-KEB': sticking
  });
  const gauge = answer(context, 'oneGauge', { filter: {}, subject: 'tail', name: 'Q7-KEB' });
  const panel = (of: string) => gauge?.levels.find((each) => each.of === of);

  // Some that should show just over 10,000 kg show less, so that the band below is off too.
  it('is off where it sticks, and nowhere else', () => {
    const bands = panel('departureFuel')?.bands ?? [];
    expect(bands.filter(({ differs }) => differs).map(({ fromKg }) => fromKg)).toEqual([9_000, 10_000]);
    expect(bands.reduce((sum, { n }) => sum + n, 0)).toBe(gauge?.n);
    for (const { fromKg, meanKg, n } of bands) {
      if (n >= 30 && fromKg !== 9_000)
        expect(Math.abs(meanKg - (fromKg > 9_000 ? -250 : 0))).toBeLessThan(30);
    }
  });

  it('is shown by the fuel on arrival and by each tank that is given, too', () => {
    expect(gauge?.levels.map(({ of }) => of)).toEqual(['departureFuel', 'arrivalFuel', 'tanksAfter:centre']);
    expect(panel('arrivalFuel')?.differing).toBe(0);
    expect(panel('tanksAfter:centre')?.bands.at(-1)?.meanKg).toBeLessThan(-100);
  });

  it('finds nothing at the levels of a sound gauge, and no levels of a vehicle', () => {
    const sound = answer(context, 'oneGauge', { filter: {}, subject: 'tail', name: 'Q7-KEC' });
    expect(sound?.levels.map(({ differing }) => differing)).toEqual([0, 0, 0]);
    const vehicle = answer(context, 'oneGauge', { filter: {}, subject: 'vehicle', name: 'JARV-H201' });
    expect(vehicle?.levels).toEqual([]);
    expect(vehicle?.n).toBeGreaterThan(150);
  });
});
