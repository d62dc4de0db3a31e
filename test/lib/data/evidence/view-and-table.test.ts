import fc from 'fast-check';
import Papa from 'papaparse';
import { describe, expect, it } from 'vitest';
import { recordsCsv } from '#lib/data/evidence/index.ts';
import { Ledger, type RecordFilter } from '#lib/data/ledger/index.ts';
import { answer, createContext, recordRows, type RecordList } from '#lib/data/questions/index.ts';
import { defaultSettings, type Settings } from '#lib/data/settings/index.ts';
import { batchOf, goldenRecord } from '../ledger/rows-of.ts';

const stations = ['JARV', 'J-ARV', 'JBEL', ''];
const tails = ['Q7-KEA', 'Q7-KEB'];

const recordOf = fc.record({
  station: fc.constantFrom(...stations),
  tail: fc.constantFrom(...tails),
  day: fc.integer({ min: 1, max: 28 }),
  // Some tickets of a day are one refuelling: their gauges say the same.
  hour: fc.constantFrom(10, 11, 16),
  departureFuel: fc.constantFrom(15_140, 15_900, 17_000, NaN),
  densityObserved: fc.constantFrom(792.5, 801, NaN),
  waterTest: fc.constantFrom('passed', 'failed', 'notDone', '')
});

const filters: fc.Arbitrary<RecordFilter> = fc.record(
  {
    names: fc.record(
      {
        station: fc.subarray(stations, { minLength: 1 }),
        tail: fc.subarray(tails, { minLength: 1 })
      },
      { requiredKeys: [] }
    ),
    fromDay: fc.constantFrom('2031-07-05', '2031-07-12'),
    untilDay: fc.constantFrom('2031-07-12', '2031-07-20'),
    verdicts: fc.subarray(['within', 'outside', 'notJudged'] as const, { minLength: 1 }),
    qualities: fc.subarray(['measured', 'estimated', 'notReconcilable'] as const, { minLength: 1 }),
    failed: fc.constantFrom(['waterTest' as const])
  },
  { requiredKeys: [] }
);

const merged: fc.Arbitrary<Settings['mergedNames']> = fc.constantFrom(
  [],
  [{ field: 'station', from: 'J-ARV', to: 'JARV' }]
);

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}

describe('a view, its table and its export', () => {
  it('are of the same records, with the same counts and the same values, under any filter', () => {
    let someWere = 0;
    fc.assert(
      fc.property(
        fc.array(recordOf, { minLength: 5, maxLength: 25 }),
        filters,
        merged,
        fc.constantFrom('', '1'),
        fc.constantFrom(null, { key: 'discrepancy' as const, descending: true }),
        (records, filter, mergedNames, ticket, order) => {
          const settings = { ...defaultSettings, mergedNames };
          const ledger = new Ledger();
          const batch = batchOf(
            records.map(({ day, hour, ...rest }, i) => ({
              ...goldenRecord,
              ...rest,
              ticket: String(i),
              time: `2031-07-${String(day).padStart(2, '0')}T${hour}:00:${String(i).padStart(2, '0')}Z`
            }))
          );
          ledger.append({ id: 'a', name: 'a.csv', sha256: 'a'.repeat(64) }, batch);
          ledger.recompute(settings, [], []);
          const context = createContext(ledger, settings);
          const list: RecordList = { filter, order, ticket };

          // The table on screen and the file, record by record.
          const columns = ['ticket', 'station', 'volume', 'discrepancy', 'verdict'] as const;
          const table = answer(context, 'records', { ...list, columns, start: 0, count: 100 });
          const text = [...recordsCsv(ledger, settings, recordRows(context, list))].join('');
          const file = Papa.parse<Record<string, string>>(text, { header: true, skipEmptyLines: true }).data;
          expect(file).toHaveLength(table.total);
          file.forEach((cells, i) => {
            const values = table.rows[i]?.values ?? [];
            expect(cells['ticket']).toBe(values[0]);
            expect(cells['station_counted_as'] ?? cells['station']).toBe(values[1]);
            expect(cells['volume_l']).toBe(String(values[2]));
            const shown = Number(values[3]);
            const discrepancy = cells['discrepancy_kg'] ?? '';
            if (Number.isNaN(shown)) expect(discrepancy).toBe('');
            else expect(Number(discrepancy)).toBeCloseTo(shown, 3);
          });
          if (ticket !== '') return;
          someWere += file.length > 0 ? 1 : 0;

          // What the stub counts, what the charts are drawn from, and the file.
          const scope = answer(context, 'scope', { filter, without: [] });
          expect(scope.records).toBe(table.total);
          expect(scope.refuellings).toBe(table.refuellings);
          for (const by of ['station', 'tail', 'month'] as const) {
            const { groups, all } = answer(context, 'discrepancy', { filter, by });
            expect(all.refuellings).toBe(scope.refuellings);
            expect(sum(groups.map(({ refuellings }) => refuellings))).toBe(scope.refuellings);
            expect(all.outside).toBe(file.filter(({ verdict }) => verdict === 'outside limits').length);
            expect(all.judged - all.outside).toBe(
              file.filter(({ verdict }) => verdict === 'within limits').length
            );
            expect(sum(groups.map(({ judged }) => judged))).toBe(all.judged);

            const checks = answer(context, 'samples', { filter, by, check: 'waterTest' });
            expect(checks.all.tickets).toBe(file.length);
            expect(sum(checks.groups.map(({ failed }) => failed))).toBe(
              file.filter((cells) => cells['water_test'] === 'failed').length
            );
            const density = answer(context, 'density', { filter, by });
            expect(sum(density.groups.map(({ tickets }) => tickets))).toBe(file.length);
            expect(density.all.n).toBe(
              file.filter((cells) => (cells['density_15c_kg_m3'] ?? '') !== '').length
            );
          }
          const series = answer(context, 'series', { filter, by: 'station', most: 100 });
          const { all } = answer(context, 'discrepancy', { filter, by: 'station' });
          expect(sum(series.groups.map(({ measured }) => measured))).toBe(all.measured);
          expect(sum(series.groups.flatMap(({ months }) => months.map(({ measured }) => measured)))).toBe(
            all.measured
          );
        }
      ),
      { numRuns: 150 }
    );
    expect(someWere).toBeGreaterThan(10);
  });
});
