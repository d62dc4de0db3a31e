import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { runIntake, textFile } from './run-intake.ts';

/**
 * Units as files name them with their size in litres, kilograms and kg/m3. International yard and pound agreement of
 * 1959 (lb), NIST Handbook 44 appendix C (US gallon), UK Units of Measurement Regulations 1995 (imperial gallon).
 */
const volumes = { L: 1, 'US gal': 3.785411784, 'imp gal': 4.54609, m3: 1000 } as const;
const masses = { kg: 1, lb: 0.45359237, t: 1000 } as const;
const densities = { 'kg/m3': 1, 'kg/L': 1000, 'lb/US gal': 0.45359237 / 0.003785411784 } as const;

const unitIn = (table: Readonly<Record<string, number>>) => fc.constantFrom(...Object.entries(table));

const uplift = fc.record({
  volumeL: fc.double({ min: 50, max: 90_000, noNaN: true }),
  densityKgM3: fc.double({ min: 770, max: 840, noNaN: true }),
  arrivalKg: fc.double({ min: 100, max: 40_000, noNaN: true }),
  departureKg: fc.double({ min: 100, max: 90_000, noNaN: true })
});

const written = fc.record({
  volume: unitIn(volumes),
  density: unitIn(densities),
  arrival: unitIn(masses),
  departure: unitIn(masses)
});

/** A value in a unit, to 14 digits: more are refused as no person's or meter's. */
function inUnit(value: number, [, size]: readonly [string, number]): string {
  return String(Number((value / size).toPrecision(14)));
}

describe('a record in any units', () => {
  const where = fc.constantFrom('header' as const, 'row below the header' as const, 'each cell' as const);

  it('is read to the same litres, kilograms and kg/m3 within 1e-9, wherever its units are named', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.array(uplift, { minLength: 1, maxLength: 5 }),
        written,
        where,
        async (rows, units, place) => {
          const columns = [
            ['Volume', units.volume],
            ['Observed density', units.density],
            ['Arrival fuel', units.arrival],
            ['Departure fuel', units.departure]
          ] as const;
          const named = (cell: string, [unit]: readonly [string, number]) =>
            place === 'each cell' ? `${cell} ${unit}` : cell;
          const header = columns.map(([name, [unit]]) => (place === 'header' ? `${name} (${unit})` : name));
          const lines = rows.map(({ volumeL, densityKgM3, arrivalKg, departureKg }, i) =>
            [
              `T${i},2024-03-04T10:0${i}Z,JARV,Q7-KEA`,
              named(inUnit(volumeL, units.volume), units.volume),
              named(inUnit(densityKgM3, units.density), units.density),
              named(inUnit(arrivalKg, units.arrival), units.arrival),
              named(inUnit(departureKg, units.departure), units.departure)
            ].join(',')
          );
          const below =
            place === 'row below the header' ? [`,,,,${columns.map(([, [unit]]) => unit).join(',')}`] : [];
          const run = await runIntake(
            textFile([`Ticket,End (UTC),Station,Tail,${header.join(',')}`, ...below, ...lines].join('\n'))
          );
          expect(run.asks).toEqual([]);
          expect(run.rows).toHaveLength(rows.length);
          run.rows.forEach(({ values }, i) => {
            const expected = rows[i];
            const pairs = [
              [values.volume, expected?.volumeL],
              [values.densityObserved, expected?.densityKgM3],
              [values.arrivalFuel, expected?.arrivalKg],
              [values.departureFuel, expected?.departureKg]
            ] as const;
            for (const [read, truth = NaN] of pairs) {
              expect(Math.abs(Number(read) - truth)).toBeLessThanOrEqual(1e-9 * truth);
            }
          });
        }
      ),
      { numRuns: 80 }
    );
  });
});
