import { describe, expect, it } from 'vitest';
import { Ledger } from '#lib/data/ledger/index.ts';
import { answer, createContext } from '#lib/data/questions/index.ts';
import { defaultSettings } from '#lib/data/settings/index.ts';
import { batchOf, type Literal } from '../ledger/rows-of.ts';

/** 10,000 L at 800 kg/m3 and 15 C are 8,000 kg; 2,000 to 10,000 kg by gauge. */
const clean = {
  time: '2031-03-10T06:00:00Z',
  station: 'JARV',
  tail: 'Q7-KEA',
  vehicle: 'JARV-H201',
  volume: 10_000,
  densityObserved: 800,
  densityTemperature: 15,
  fuelTemperature: 15,
  arrivalFuel: 2_000,
  departureFuel: 10_000,
  groundBurn: 0
} as const satisfies Literal;

function contextOf(records: readonly Literal[], undone: readonly string[] = []) {
  const ledger = new Ledger();
  ledger.append({ id: 'a', name: 'a.csv', sha256: 'a'.repeat(64) }, batchOf(records));
  ledger.recompute(defaultSettings, undone, []);
  return createContext(ledger, defaultSettings);
}

function causesOf(record: Literal, before: readonly Literal[] = []) {
  const context = contextOf([...before, record]);
  return answer(context, 'sheet', { address: `aaaaaaaa-${before.length + 2}` })?.causes;
}

describe('what one record would fit', () => {
  it.each([
    // 10,000 L are 2,642 US gal (3.785411784 L, NIST Handbook 44): 2,642 gal are 10,001 L.
    ['usGallonsAsLitres', { volume: 2_642 }, 'volume', 2_642, 10_001.06],
    ['imperialGallonsAsLitres', { volume: 2_200 }, 'volume', 2_200, 10_001.4],
    // Arrival and departure in pounds: no single figure.
    ['poundsAsKilograms', { arrivalFuel: 4_409, departureFuel: 22_046 }, 'none', NaN, NaN],
    ['gaugeReadingsSwapped', { arrivalFuel: 10_000, departureFuel: 2_000 }, 'none', NaN, NaN],
    ['densityUnit', { densityObserved: 0.8 }, 'density', 0.8, 800]
  ] as const)(
    '%s, with the figure as it is and as it would have been',
    (code, wrong, figure, typed, would) => {
      const causes = causesOf({ ...clean, ...wrong });
      const [first] = causes?.causes ?? [];
      expect(causes?.outcome).toBe('named');
      expect(first).toMatchObject({ code, figure });
      expect(first?.figureTyped).toEqual(Number.isNaN(typed) ? NaN : typed);
      if (Number.isNaN(would)) expect(first?.figureValue).toBeNaN();
      else expect(first?.figureValue).toBeCloseTo(would, 1);
      expect(Math.abs(first?.discrepancyKg ?? NaN)).toBeLessThan(10);
      expect(first?.share).toBeGreaterThan(0.9);
    }
  );

  it('is an arrival fuel copied from the last departure', () => {
    const last = {
      ...clean,
      time: '2031-03-09T06:00:00Z',
      station: 'JBEL',
      departureFuel: 9_000,
      arrivalFuel: 1_000
    };
    const causes = causesOf({ ...clean, arrivalFuel: 9_000, departureFuel: 10_500, volume: 10_600 }, [last]);
    expect(causes?.causes[0]).toMatchObject({
      code: 'staleArrival',
      figure: 'arrivalFuel',
      figureTyped: 9_000
    });
    expect(causes?.causes[0]?.figureValue).toBeCloseTo(10_500 - 8_480, 6);
  });

  it('is said to be nothing for a record within its scatter, whatever it nearly fits', () => {
    expect(causesOf({ ...clean, departureFuel: 10_050 })?.outcome).toBe('nothingWrong');
  });

  it('is said to be unknown where no single thing brings the sides together', () => {
    const causes = causesOf({ ...clean, departureFuel: 15_370 });
    expect(causes?.outcome).toBe('unknown');
  });

  it('cannot be told between kilograms for litres and one gallon for the other where fuel weighs 832.7', () => {
    // 1 / 0.8327 is 1.2009, the imperial gallon in US ones 1.20095 (NIST Handbook 44).
    const causes = causesOf({ ...clean, densityObserved: 832.7, volume: 8_327, departureFuel: 10_327 });
    expect(causes?.outcome).toBe('cannotTell');
    const together = causes?.causes.filter(({ inGroup }) => inGroup).map(({ code }) => code);
    expect(together).toEqual(expect.arrayContaining(['kilogramsAsLitres', 'imperialGallonsAsUs']));
  });

  it('lists signs that no discrepancy shows', () => {
    expect(causesOf({ ...clean, densityTemperature: 77, fuelTemperature: 77 })?.signs).toContain(
      'temperatureOutOfWeather'
    );
  });
});

describe('an order worked out from a wrong arrival fuel', () => {
  // Total wanted 10,700 kg; the form asks for 10,700 - 9,000 = 1,700 kg, which is 6,800 / 4: litres for US gallons fits it.
  const last = {
    ...clean,
    time: '2031-03-09T06:00:00Z',
    station: 'JBEL',
    departureFuel: 9_000,
    arrivalFuel: 1_000
  };
  const copied = {
    ...clean,
    arrivalFuel: 9_000,
    departureFuel: 10_860,
    volume: 8_500,
    orderedBasis: 'amountToAdd'
  };

  it('is no witness for litres in a column of gallons', () => {
    const causes = causesOf({ ...copied, ordered: 1_700 }, [last]);
    expect(causes?.causes[0]?.code).toBe('staleArrival');
  });
});

describe('the chain around a record', () => {
  const flights: readonly Literal[] = [
    { ...clean, meterStart: 0, meterStop: 10_000 },
    {
      ...clean,
      time: '2031-03-10T10:00:00Z',
      station: 'JBEL',
      arrivalFuel: 10_000,
      departureFuel: 18_000,
      meterStart: 10_000,
      meterStop: 20_000
    },
    {
      ...clean,
      time: '2031-03-10T14:00:00Z',
      arrivalFuel: 18_500,
      departureFuel: 26_500,
      meterStart: 25_000,
      meterStop: 35_000
    },
    { ...clean, time: '2031-03-10T18:00:00Z', tail: 'Q7-KEB', meterStart: 34_000, meterStop: 44_000 }
  ];
  const context = contextOf(flights);
  const chain = (line: number) => answer(context, 'sectors', { address: `aaaaaaaa-${line}` });

  it('is in order of time, with the fuel burnt between', () => {
    expect(chain(3)?.own).toBe(1);
    expect(chain(3)?.sectors.map(({ address, changeKg }) => [address, changeKg])).toEqual([
      ['aaaaaaaa-2', NaN],
      ['aaaaaaaa-3', 0],
      ['aaaaaaaa-4', 500]
    ]);
  });

  it.each([
    [2, []],
    [3, ['arrivalEqualsPreviousDeparture']],
    [4, ['arrivalAbovePreviousDeparture']]
  ])('says of line %s what does not follow', (line, flags) => {
    const answered = chain(line);
    expect(answered?.sectors[answered.own]?.flags).toEqual(flags);
  });

  it.each([
    [3, 0, ['meterStartEqualsPreviousStop']],
    [4, 5_000, ['meterStartAbovePreviousStop']],
    [5, -1_000, ['meterStartBelowPreviousStop']]
  ])('ties line %s to the ticket before on its meter, %s L apart', (line, gapL, flags) => {
    expect(chain(line)?.meter).toMatchObject({ gapL, flags });
  });

  it('has nothing before the first ticket of a meter, and nothing of a record that is not in hand', () => {
    expect(chain(2)?.meter).toBeNull();
    expect(answer(context, 'sectors', { address: 'bbbbbbbb-2' })).toBeNull();
  });

  it('leads from any ticket that was taken apart back to the one that led', () => {
    const second = { ...clean, time: '2031-03-10T06:20:00Z', volume: 5_000 };
    const tickets = [{ ...clean, volume: 5_000 }, second];
    const joined = answer(contextOf(tickets), 'sheet', { address: 'aaaaaaaa-3' });
    expect(joined?.tickets.map(({ address }) => address)).toEqual(['aaaaaaaa-2', 'aaaaaaaa-3']);
    expect(joined?.result.meteredMassKg).toBeCloseTo(8_000, 9);
    const apart = contextOf(tickets, ['aaaaaaaa-2']);
    expect(answer(apart, 'sheet', { address: 'aaaaaaaa-3' })?.tickets).toHaveLength(1);
    expect(answer(apart, 'sectors', { address: 'aaaaaaaa-3' })?.stay).toEqual(['aaaaaaaa-3', 'aaaaaaaa-2']);
  });
});
