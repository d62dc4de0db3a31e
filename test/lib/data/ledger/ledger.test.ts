import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { causeCodes } from '#lib/core/causes/index.ts';
import { qualities, verdicts } from '#lib/core/reconciliation/index.ts';
import { addressFrom, addressText, Ledger, select, type RecordFilter } from '#lib/data/ledger/index.ts';
import { causesOf } from '#lib/data/questions/causes.ts';
import { createContext } from '#lib/data/questions/index.ts';
import { defaultSettings, exampleLimits, type Settings } from '#lib/data/settings/index.ts';
import { batchOf, goldenRecord, type Literal } from './rows-of.ts';

const sha = (digit: string) => digit.repeat(64);
const file = (id: string, digit: string) => ({ id, name: `${id}.csv`, sha256: sha(digit) });

function ledgerOf(records: readonly Literal[], settings: Settings = defaultSettings): Ledger {
  const ledger = new Ledger();
  ledger.append(file('one', 'a'), batchOf(records));
  ledger.recompute(settings, [], []);
  return ledger;
}

describe('the ledger', () => {
  it('reconciles golden record 1 (computed independently from the published tables 53B/54B)', () => {
    const ledger = ledgerOf([goldenRecord]);
    expect(ledger.computed.density15KgM3[0]).toBeCloseTo(801.2126, 3);
    expect(ledger.computed.meteredMassKg[0]).toBeCloseTo(11798.6, 1);
    expect(ledger.computed.gaugeUpliftKg[0]).toBe(11780);
    expect(ledger.computed.discrepancyKg[0]).toBeCloseTo(-18.6, 1);
    expect(verdicts[ledger.verdicts.verdict[0] ?? 0]).toBe('within');
    expect(qualities[ledger.computed.quality[0] ?? 0]).toBe('measured');
  });

  it('keeps a record that cannot be reconciled, without a verdict', () => {
    const { departureFuel: _left, ...record } = goldenRecord;
    const ledger = ledgerOf([record]);
    expect(select(ledger, {}).refuellings).toHaveLength(1);
    expect(qualities[ledger.computed.quality[0] ?? 0]).toBe('notReconcilable');
    expect(verdicts[ledger.verdicts.verdict[0] ?? 0]).toBe('notJudged');
    expect(ledger.computed.discrepancyKg[0]).toBeNaN();
  });

  it('joins two tickets of one refuelling and counts them once', () => {
    const first = { ...goldenRecord, ticket: '1', volume: 10000, vehicle: 'H1' };
    const second = {
      ...goldenRecord,
      ticket: '2',
      volume: 4850,
      vehicle: 'H2',
      time: '2031-07-01T10:40:00Z'
    };
    const joined = ledgerOf([first, second]);
    const whole = ledgerOf([goldenRecord]);
    expect([...joined.computed.leader]).toEqual([0, 0]);
    expect(select(joined, {}).refuellings).toHaveLength(1);
    expect(joined.computed.discrepancyKg[0]).toBeCloseTo(whole.computed.discrepancyKg[0] ?? NaN, 9);
    expect(joined.computed.severalVehicles[0]).toBe(1);
  });

  it('takes a joined refuelling apart when a person undoes it', () => {
    const second = { ...goldenRecord, ticket: '2', time: '2031-07-01T10:40:00Z' };
    const ledger = ledgerOf([goldenRecord, second]);
    ledger.recompute(defaultSettings, [addressText(ledger.source.addressOf(0))], []);
    expect([...ledger.computed.leader]).toEqual([0, 1]);
  });

  it('rewrites verdicts, and nothing else, when limits change', () => {
    const ledger = ledgerOf([goldenRecord]);
    const before = ledger.computed;
    const tight = { ...exampleLimits, width: { percent: 0.1, floorKg: 0, floorGaugeSteps: 0 } };
    ledger.rejudge({ ...defaultSettings, limitSets: [tight] });
    expect(ledger.computed).toBe(before);
    expect(verdicts[ledger.verdicts.verdict[0] ?? 0]).toBe('outside');
    expect(ledger.verdicts.limitKg[0]).toBeCloseTo(11.7986, 3);
  });

  it('takes a file out with every name that only it knew, and finds the rest where they were', () => {
    const ledger = new Ledger();
    ledger.append(file('one', 'a'), batchOf([goldenRecord, { ...goldenRecord, tail: 'Q7-GONE' }]));
    ledger.append(file('two', 'b'), batchOf([{ ...goldenRecord, tail: 'Q7-KEC' }]));
    ledger.recompute(defaultSettings, [], []);
    ledger.remove('one');
    ledger.recompute(defaultSettings, [], []);
    expect(ledger.rowCount).toBe(1);
    expect(ledger.source.columns.code('tail').dictionary.texts()).toEqual(['', 'Q7-KEC']);
    expect(ledger.source.rowAt({ sha8: 'bbbbbbbb', line: 2 })).toBe(0);
    expect(ledger.source.rowAt({ sha8: 'aaaaaaaa', line: 2 })).toBe(-1);
    expect(ledger.source.fileOf(0).id).toBe('two');
  });

  it('finds every record again by its address', () => {
    const ledger = ledgerOf(
      Array.from({ length: 50 }, (_none, i) => ({ ...goldenRecord, ticket: String(i) }))
    );
    for (let row = 0; row < 50; row++) {
      const address = addressFrom(addressText(ledger.source.addressOf(row)));
      expect(address === null ? -1 : ledger.source.rowAt(address)).toBe(row);
    }
  });
});

describe('causes of records whose halves agree', () => {
  const nameOf = (ledger: Ledger, row = 0) => causeCodes[(ledger.causes.cause[row] ?? 0) - 1];
  const tanks = (left: number, right: number) => ({
    ...goldenRecord,
    'tanksAfter:left': left,
    'tanksAfter:right': right
  });

  it('are named where a sign stands whatever the discrepancy: 27 °C typed as 81 °F beside its certificate', () => {
    const record = { ...goldenRecord, densityCertificate15: 801.2 };
    expect(nameOf(ledgerOf([record]))).toBeUndefined();
    const slipped = ledgerOf([{ ...record, densityTemperature: 81 }]);
    expect(nameOf(slipped)).toBe('fahrenheitAsCelsius');
    expect(slipped.causes.slip[0]).toBe(1);
  });

  it('are named where all of the uplift went to one side, whatever the limit, and are no slip of typing', () => {
    expect(nameOf(ledgerOf([tanks(7570, 7570)]))).toBeUndefined();
    const oneSided = ledgerOf([tanks(13430, 1710)]);
    expect(nameOf(oneSided)).toBe('oneTank');
    expect(oneSided.causes.slip[0]).toBe(0);
  });

  it('say "left and right unequal" only beyond the limit of the set in force', () => {
    const ledger = ledgerOf([tanks(8000, 7140)]);
    const signsAt = (imbalanceKg: number | null) => {
      const limitSets = [{ ...exampleLimits, imbalanceKg }];
      return causesOf(createContext(ledger, { ...defaultSettings, limitSets }), 0, [0]).signs;
    };
    expect(signsAt(550)).toContain('unbalanced');
    expect(signsAt(900)).not.toContain('unbalanced');
    expect(signsAt(null)).not.toContain('unbalanced');
  });
});

describe('a selection', () => {
  const stations = ['JARV', 'JBEL', ''];
  const recordArbitrary = fc.record({
    station: fc.constantFrom(...stations),
    day: fc.integer({ min: 1, max: 28 }),
    departureFuel: fc.constantFrom(15140, 17000, NaN),
    waterTest: fc.constantFrom('passed', 'failed', '')
  });

  it('holds the rows that a row-by-row reading of the filter holds', () => {
    fc.assert(
      fc.property(
        fc.array(recordArbitrary, { maxLength: 30 }),
        fc.record(
          {
            names: fc.record({ station: fc.subarray(stations, { minLength: 1 }) }),
            fromDay: fc.constantFrom('2031-07-05'),
            untilDay: fc.constantFrom('2031-07-20'),
            verdicts: fc.subarray([...verdicts], { minLength: 1 }),
            failed: fc.constantFrom(['waterTest' as const])
          },
          { requiredKeys: [] }
        ),
        (records, filter: RecordFilter) => {
          const literals = records.map(({ day, ...rest }, i) => ({
            ...goldenRecord,
            ...rest,
            ticket: String(i),
            tail: `Q7-${i}`,
            time: `2031-07-${String(day).padStart(2, '0')}T12:00:00Z`
          }));
          const ledger = ledgerOf(literals);
          const expected = literals.flatMap((record, row) => {
            const day = record.time.slice(0, 10);
            const verdict = verdicts[ledger.verdicts.verdict[row] ?? 0] ?? 'notJudged';
            const passes =
              (filter.names?.station ?? stations).includes(record.station) &&
              (filter.fromDay ?? '') <= day &&
              day <= (filter.untilDay ?? '9') &&
              (filter.verdicts ?? verdicts).includes(verdict) &&
              (filter.failed === undefined || record.waterTest === 'failed');
            return passes ? [row] : [];
          });
          expect([...select(ledger, filter).rows]).toEqual(expected);
        }
      )
    );
  });
});
