import { describe, expect, it } from 'vitest';
import { densityAt } from '#lib/core/density/index.ts';
import { Ledger } from '#lib/data/ledger/index.ts';
import { answer, createContext, type QuestionContext } from '#lib/data/questions/index.ts';
import { defaultSettings } from '#lib/data/settings/index.ts';
import { batchOf, type Literal } from '../ledger/rows-of.ts';

const start = Date.parse('2031-01-06T00:00:00Z');
const hourMs = 3_600_000;
const weekMs = 168 * hourMs;

function contextOf(records: readonly Literal[]): QuestionContext {
  const ledger = new Ledger();
  ledger.append({ id: 'a', name: 'a.csv', sha256: 'a'.repeat(64) }, batchOf(records));
  ledger.recompute(defaultSettings, [], []);
  return createContext(ledger, defaultSettings);
}

/** A number between -1 and 1 that is the same for the same index: the middle of a scrambled row. */
function scrambled(index: number): number {
  const large = Math.abs(Math.sin(index * 12.9898 + 1) * 43_758.5453);
  return 2 * (large - Math.floor(large)) - 1;
}

interface Told {
  /** What the ticket says, and what the fuel is, kg/m3 at 15 degC. */
  readonly written: number;
  readonly true: number;
}

/** Four uplifts a day for forty weeks by four aircraft, 10,000 L at 15 degC each; the gauges see the true mass. */
function fortyWeeks(densityOf: (week: number) => Told): Literal[] {
  return Array.from({ length: 40 * 28 }, (_none, i) => {
    const time = start + 6 * i * hourMs;
    const week = Math.floor((time - start) / weekMs);
    const told = densityOf(week);
    const noise = 1.5 * scrambled(week) + 0.4 * scrambled(i);
    return {
      ticket: String(i),
      time: new Date(time).toISOString(),
      station: 'JGAL',
      supplier: 'Ostrel Fuels',
      tail: `Q7-KE${String.fromCharCode(65 + (i % 4))}`,
      vehicle: 'JGAL-R501',
      volume: 10_000,
      densityObserved: told.written + noise,
      densityTemperature: 15,
      fuelTemperature: 15,
      arrivalFuel: 2_000,
      departureFuel: 2_000 + 10 * (told.true + noise) + 40 * scrambled(3 * i + 1),
      groundBurn: 0
    };
  });
}

function stepOf(densityOf: (week: number) => Told) {
  const { series } = answer(contextOf(fortyWeeks(densityOf)), 'densitySteps', { filter: {} });
  return series[0]?.step ?? null;
}

describe('a step of density', () => {
  it('of other fuel is dated to its week, and the discrepancy has not moved', () => {
    const level = (week: number) => (week < 22 ? 792 : 801);
    const step = stepOf((week) => ({ written: level(week), true: level(week) }));
    expect(step?.isClear).toBe(true);
    expect(step?.atMs).toBe(start + 22 * weekMs);
    expect(step?.byKgM3).toBeGreaterThan(7.5);
    expect(step?.byKgM3).toBeLessThan(10.5);
    expect(step?.moved).toBe('unmoved');
  });

  it('of what is written alone takes the discrepancy along, by as much as the density is off', () => {
    const step = stepOf((week) => ({ written: week < 22 ? 792 : 801, true: 792 }));
    expect(step?.moved).toBe('moved');
    const moved = step?.discrepancy;
    // 10,000 L of 801 instead of 792 kg/m3: 90 kg too many on 8,010.
    expect(step?.ifWrittenPercent).toBeCloseTo((-100 * 9) / 801, 0);
    expect(moved?.estimable === true ? moved.differencePercent : NaN).toBeCloseTo(-1.12, 1);
  });

  it('is not seen in batches alone, nor in a season', () => {
    expect(stepOf(() => ({ written: 795, true: 795 }))?.isClear).toBe(false);
    const season = (week: number) => 795 + 4 * Math.cos((2 * Math.PI * week) / 52);
    expect(stepOf((week) => ({ written: season(week), true: season(week) }))?.isClear).toBe(false);
  });
});

describe('observed density against its temperature', () => {
  /** Twenty weeks, three tickets a day between 10 and 30 degC, of fuel that changes week by week. */
  function tickets(writtenOf: (density15: number, celsius: number) => number): Literal[] {
    return Array.from({ length: 420 }, (_none, i) => {
      const celsius = 20 + 10 * scrambled(i);
      const fuel = 800 + 2 * scrambled(Math.floor(i / 21));
      return {
        time: new Date(start + 8 * i * hourMs).toISOString(),
        station: 'JKES',
        tail: 'Q7-KEA',
        volume: 10_000,
        densityObserved: writtenOf(fuel, celsius),
        densityTemperature: celsius,
        fuelTemperature: celsius
      };
    });
  }
  const slopeOf = (writtenOf: (density15: number, celsius: number) => number) =>
    answer(contextOf(tickets(writtenOf)), 'densityTemperature', { filter: {}, by: 'station' }).all;

  it('follows the tables where it was read: between 10 and 30 degC by their own end points', () => {
    const all = slopeOf((density15, celsius) => densityAt(density15, celsius, '2004'));
    const ends = (densityAt(800, 30, '2004') - densityAt(800, 10, '2004')) / 20;
    expect(all.byTables).toBeCloseTo(ends, 2);
    expect(all.slope).toBeCloseTo(ends, 1);
    expect(all.lower).toBeLessThan(ends);
    expect(all.upper).toBeGreaterThan(ends);
    expect(all.verdict).toBe('agrees');
  });

  it('is level where densities at 15 degC were written, and said to be flatter', () => {
    const all = slopeOf((density15) => density15);
    expect(all.slope).toBeCloseTo(0, 1);
    expect(all.verdict).toBe('flatter');
  });

  it('counts every ticket of the middle in one bin', () => {
    const { bins, all } = answer(
      contextOf(tickets((density15, celsius) => densityAt(density15, celsius, '2004'))),
      'densityTemperature',
      { filter: {}, by: 'station' }
    );
    expect(bins.reduce((sum, { count }) => sum + count, 0)).toBe(all.n);
    expect(all.n).toBe(420);
  });
});

describe('shapes of density by month', () => {
  it('count every ticket once, over bins that hold them', () => {
    const records = fortyWeeks((week) => ({ written: week < 22 ? 792 : 801, true: 792 }));
    const { edges, months, beyond } = answer(contextOf(records), 'densityShapes', { filter: {} });
    expect(months.reduce((sum, { n }) => sum + n, 0) + beyond).toBe(records.length);
    const january = records.filter(({ time }) => String(time).startsWith('2031-01'));
    const counts = edges.slice(1).map(
      (edge, i) =>
        january.filter(({ densityObserved }) => {
          const value = Number(densityObserved);
          return value >= (edges[i] ?? NaN) && value < edge;
        }).length
    );
    expect(months[0]?.month).toBe('2031-01');
    expect(months[0]?.counts).toEqual(counts);
  });
});

describe('before and after a moment', () => {
  const asked = { filter: {}, subject: 'vehicle' as const, name: 'JGAL-R501', days: 56 };

  it('is compared with the partners of both sides only, and wild values do not count', () => {
    const records = fortyWeeks(() => ({ written: 795, true: 795 }));
    const half = start + 20 * weekMs;
    const off = records.map((record) => {
      const isAfter = Date.parse(String(record.time)) >= half;
      // From half on the vehicle's meter counts 1 % too little: the gauges say 1 % more.
      return isAfter ? { ...record, volume: 10_000 / 1.01 } : record;
    });
    // A newcomer that meets the vehicle only afterwards, with a gauge of its own.
    const alone = { ...off[600], ticket: 'X1', tail: 'Q7-LOA', departureFuel: 2_000 + 8_000 };
    const sides = answer(contextOf([...off, alone as Literal]), 'beforeAfter', { ...asked, atMs: half });
    if (!sides.estimable) throw new Error('nothing to compare');
    expect(sides.partners.map(({ name }) => name)).toEqual(['Q7-KEA', 'Q7-KEB', 'Q7-KEC', 'Q7-KED']);
    expect(sides.nBefore).toBe(8 * 28);
    expect(sides.aloneAfter + sides.wild).toBe(1);
    expect(sides.differencePercent).toBeCloseTo(1, 1);
    expect(sides.lowerPercent).toBeLessThan(1);
    expect(sides.upperPercent).toBeGreaterThan(1);
    expect(sides.scatterChance).toBeGreaterThan(0.01);
  });

  it('says how many there are where they are too few', () => {
    const records = fortyWeeks(() => ({ written: 795, true: 795 })).slice(0, 12);
    const sides = answer(contextOf(records), 'beforeAfter', { ...asked, atMs: start + 24 * hourMs });
    expect(sides).toEqual({ estimable: false, nBefore: 4, nAfter: 8 });
  });
});
