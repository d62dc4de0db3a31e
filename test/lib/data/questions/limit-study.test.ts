import { describe, expect, it } from 'vitest';
import { Ledger } from '#lib/data/ledger/index.ts';
import { answer, createContext, type StudiedLimit } from '#lib/data/questions/index.ts';
import { defaultSettings, type Settings, type TypeEntry } from '#lib/data/settings/index.ts';
import { batchOf, type Literal } from '../ledger/rows-of.ts';

const type: TypeEntry = {
  code: 'AV150',
  name: '',
  gaugeStepKg: 20,
  tanks: [{ name: 'left', usableKg: 20_000, side: null }],
  groundBurnKgPerMinute: null
};

/** Litres at 800 kg/m3 and 15 C, the gauge off by a number of kg. */
function uplift(index: number, litres: number, discrepancyKg: number, more: Literal = {}): Literal {
  return {
    time: `2031-01-${String(1 + index).padStart(2, '0')}T00:00:00Z`,
    station: 'JARV',
    tail: `Q7-${index}`,
    type: 'AV150',
    volume: litres,
    densityObserved: 800,
    densityTemperature: 15,
    fuelTemperature: 15,
    arrivalFuel: 2_000,
    departureFuel: 2_000 + 0.8 * litres + discrepancyKg,
    groundBurn: 0,
    ...more
  };
}

function study(records: readonly Literal[], limit: Partial<StudiedLimit>, settings: Partial<Settings> = {}) {
  const whole: Settings = { ...defaultSettings, types: [type], ...settings };
  const ledger = new Ledger();
  ledger.append({ id: 'a', name: 'a.csv', sha256: 'a'.repeat(64) }, batchOf(records));
  ledger.recompute(whole, [], []);
  const width = { percent: 3, floorKg: 0, floorGaugeSteps: 0 };
  const asked = { base: 'meteredMass' as const, width, exceptions: [], ...limit };
  return { ...answer(createContext(ledger, whole), 'limitStudy', { filter: {}, limit: asked }), ledger };
}

describe('a limit that is thought about', () => {
  const records = [
    uplift(0, 2_000, 60),
    uplift(1, 2_000, -40),
    uplift(2, 10_000, 100),
    uplift(3, 10_000, 250)
  ];

  it('is counted by size of uplift', () => {
    const { bands, all } = study(records, {});
    expect(bands.map(({ judged, outside }) => [judged, outside])).toEqual([
      [2, 1],
      [2, 1]
    ]);
    expect([all.judged, all.outside, all.rate]).toEqual([4, 2, 0.5]);
  });

  it.each([
    ['a floor in kg', { width: { percent: 3, floorKg: 70, floorGaugeSteps: 0 } }, 1],
    ['a floor of four gauge steps of 20 kg', { width: { percent: 3, floorKg: null, floorGaugeSteps: 4 } }, 1],
    [
      'the higher amount as base: 3 % of 10,250 kg is 307',
      { base: 'higherOfExpectedAndIndicated' as const },
      0
    ],
    [
      'an exception for the type',
      {
        exceptions: [{ type: 'AV150', station: null, width: { percent: 1, floorKg: 0, floorGaugeSteps: 0 } }]
      },
      4
    ],
    [
      'an exception for another station',
      {
        exceptions: [{ type: null, station: 'JBEL', width: { percent: 0, floorKg: 0, floorGaugeSteps: 0 } }]
      },
      2
    ]
  ])('is judged with %s', (_what, limit, outside) => {
    expect(study(records, limit).all.outside).toBe(outside);
  });

  it('tells what noise alone breaks from each record’s own uncertainty', () => {
    const { all, ledger } = study([uplift(2, 10_000, 100)], {});
    const sdKg = (ledger.computed.uncertaintyKg[0] ?? NaN) / 2;
    expect(all.known).toBe(1);
    // A limit of 240 kg; the chance of a normal value beyond it either way, by numeric integration of the density.
    const stepsOfTail = 200_000;
    let tail = 0;
    for (let i = 0; i < stepsOfTail; i++) {
      const z = 240 / sdKg + ((i + 0.5) * 10) / stepsOfTail;
      tail += (Math.exp(-0.5 * z * z) / Math.sqrt(2 * Math.PI)) * (10 / stepsOfTail);
    }
    expect(all.healthyShare).toBeCloseTo(2 * tail, 9);
    expect(all.healthyShare).toBeGreaterThan(0);
  });

  it('is broken by noise the more, the smaller the uplift: the gauge’s error does not shrink with it', () => {
    const [small, large] = study(records, {}).bands;
    expect(small?.healthyShare).toBeGreaterThan(large?.healthyShare ?? NaN);
  });

  it('leaves suspected slips out', () => {
    // 2,642 for 10,000 L: US gallons.
    const gallons = { ...uplift(5, 10_000, 0), volume: 2_642 };
    expect(study([...records, gallons], {}).all.judged).toBe(4);
  });
});
