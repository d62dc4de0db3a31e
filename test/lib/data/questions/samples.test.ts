import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Ledger } from '#lib/data/ledger/index.ts';
import { answer, createContext, type QuestionContext } from '#lib/data/questions/index.ts';
import { defaultSettings } from '#lib/data/settings/index.ts';
import { batchOf, type Literal } from '../ledger/rows-of.ts';

const dayMs = 86_400_000;
const start = Date.parse('2031-03-05T00:00:00Z');

function contextOf(records: readonly Literal[]): QuestionContext {
  const ledger = new Ledger();
  ledger.append({ id: 'a', name: 'a.csv', sha256: 'a'.repeat(64) }, batchOf(records));
  ledger.recompute(defaultSettings, [], []);
  return createContext(ledger, defaultSettings);
}

/** One ticket with one water test, some hours after the start. */
function ticket(
  index: number,
  hours: number,
  station: string,
  waterTest: string,
  more: Literal = {}
): Literal {
  return {
    ticket: String(index),
    time: new Date(start + hours * 3_600_000).toISOString(),
    station,
    tail: `Q7-${index}`,
    volume: 10_000,
    waterTest,
    ...more
  };
}

const check = 'waterTest' as const;

describe('the calendar of coverage', () => {
  const asked = { filter: {}, by: 'station' as const, check, step: 'day' as const };

  it('counts a blank as due and not as done, and leaves out what was not required', () => {
    const states = ['passed', '', 'failed', 'notDone', 'notRequired'];
    const context = contextOf(states.map((state, i) => ticket(i, i, 'JLOM', state)));
    const { cells, groups } = answer(context, 'sampleDays', asked);
    expect(groups).toEqual(['JLOM']);
    expect(cells).toEqual([{ group: 0, period: 0, due: 4, done: 2, failed: 1 }]);
  });

  it('has every day from the first to the last, and a cell only where a check was due', () => {
    const context = contextOf([ticket(1, 23.9, 'JLOM', 'passed'), ticket(2, 48, 'JBEL', 'passed')]);
    const { periodsMs, cells, groups } = answer(context, 'sampleDays', asked);
    expect(periodsMs).toEqual([start, start + dayMs, start + 2 * dayMs]);
    expect(cells.map(({ group, period }) => [groups[group], period])).toEqual([
      ['JBEL', 2],
      ['JLOM', 0]
    ]);
  });

  it('begins weeks on Monday: 5 March 2031 is a Wednesday', () => {
    const context = contextOf([ticket(1, 0, 'JLOM', 'passed'), ticket(2, 24 * 5, 'JLOM', '')]);
    const { periodsMs, cells } = answer(context, 'sampleDays', { ...asked, step: 'week' });
    expect(periodsMs.map((ms) => new Date(ms).toISOString().slice(0, 10))).toEqual([
      '2031-03-03',
      '2031-03-10'
    ]);
    expect(cells.map(({ due, done }) => [due, done])).toEqual([
      [1, 1],
      [1, 0]
    ]);
  });

  it('takes weeks of its own accord where days are too many to see', () => {
    const long = Array.from({ length: 10 }, (_none, i) => ticket(i, 24 * 300 * (i % 2), `J00${i}`, 'passed'));
    expect(answer(contextOf(long), 'sampleDays', { ...asked, step: null }).step).toBe('week');
    expect(answer(contextOf(long.slice(0, 4)), 'sampleDays', { ...asked, step: null }).step).toBe('day');
  });

  it('adds up to what a plain reading of the same records gives', () => {
    const state = fc.constantFrom('passed', 'failed', 'notDone', 'notRequired', '');
    const record = fc.tuple(fc.integer({ min: 0, max: 200 }), fc.constantFrom('JARV', 'JBEL', ''), state);
    fc.assert(
      fc.property(fc.array(record, { minLength: 1, maxLength: 40 }), (records) => {
        const context = contextOf(records.map(([hours, station, of], i) => ticket(i, hours, station, of)));
        const { cells, groups, periodsMs } = answer(context, 'sampleDays', asked);
        const expected = new Map<string, number[]>();
        for (const [hours, station, of] of records) {
          if (of === 'notRequired') continue;
          const key = `${station} ${start + Math.floor(hours / 24) * dayMs}`;
          const [due = 0, done = 0, failed = 0] = expected.get(key) ?? [];
          expected.set(key, [
            due + 1,
            done + (of === 'passed' || of === 'failed' ? 1 : 0),
            failed + (of === 'failed' ? 1 : 0)
          ]);
        }
        const found = new Map(
          cells.map(({ group, period, due, done, failed }) => [
            `${groups[group] ?? '?'} ${periodsMs[period] ?? NaN}`,
            [due, done, failed]
          ])
        );
        expect(found).toEqual(expected);
      }),
      { numRuns: 40 }
    );
  });
});

describe('the gaps between failures', () => {
  /** A check an hour; `failures` are the hours of those that fail. */
  function hourly(hours: number, failures: readonly number[], station = 'JLOM', first = 0): Literal[] {
    return Array.from({ length: hours }, (_none, hour) =>
      ticket(first + hour, hour, station, failures.includes(hour) ? 'failed' : 'passed')
    );
  }

  it('are counted in checks passed and in days, from the second failure on, the last one open', () => {
    const { gaps, open, failed, results } = answer(contextOf(hourly(200, [10, 34, 35, 155])), 'sampleGaps', {
      filter: {},
      check
    });
    expect([failed, results]).toEqual([4, 200]);
    expect(gaps.map(({ checks }) => checks)).toEqual([23, 0, 119]);
    expect(gaps.map(({ days }) => days)).toEqual([1, 1 / 24, 5]);
    expect(open?.checks).toBe(44);
    expect(open?.days).toBeCloseTo(44 / 24, 12);
  });

  it('do not count a blank: nobody knows how it would have come out', () => {
    const records = hourly(50, [10, 40]).map((record, hour) =>
      hour >= 20 && hour < 30 ? { ...record, waterTest: '' } : record
    );
    const { gaps, results } = answer(contextOf(records), 'sampleGaps', { filter: {}, check });
    expect(results).toBe(40);
    expect(gaps.map(({ checks }) => checks)).toEqual([19]);
  });

  it('add up to the checks with a result, whatever the order of the records', () => {
    fc.assert(
      fc.property(
        fc.uniqueArray(fc.integer({ min: 0, max: 99 }), { minLength: 1, maxLength: 12 }),
        fc.boolean(),
        (failures, backwards) => {
          const records = hourly(100, failures);
          const context = contextOf(backwards ? records.toReversed() : records);
          const { gaps, open } = answer(context, 'sampleGaps', { filter: {}, check });
          const before = Math.min(...failures);
          const between = gaps.reduce((sum, gap) => sum + gap.checks, 0);
          expect(before + failures.length + between + (open?.checks ?? NaN)).toBe(100);
        }
      ),
      { numRuns: 30 }
    );
  });

  it('are held against the pace of all other places, and a run of short ones is named', () => {
    const every100 = (from: number) => Array.from({ length: 20 }, (_none, i) => from + 100 * i);
    const cluster = [400, 404, 410, 413, 419, 424, 428, 433];
    const records = [
      ...hourly(2_000, every100(3), 'JARV'),
      ...hourly(1_000, [50, ...cluster, 900], 'JLOM', 5_000)
    ];
    const { gaps, runs, pace, limits, openChance } = answer(contextOf(records), 'sampleGaps', {
      filter: { names: { station: ['JLOM'] } },
      check
    });
    expect(pace).toMatchObject({ from: 'others', failed: 20, results: 2_000, meanChecks: 99 });
    // 99 checks in the mean, one check an hour: 99 / 24 days, but for the first interval that has no length.
    expect(pace?.meanDays).toBeCloseTo((99 * 999) / 1_000 / 24, 9);
    // Geometric law with p = 1 / 100: the least k with 1 - 0.99^(k + 1) of at least 0.99865 and 0.5.
    expect(limits?.upper).toBe(Math.ceil(Math.log(0.00135) / Math.log(0.99)) - 1);
    expect(limits?.centre).toBe(Math.ceil(Math.log(0.5) / Math.log(0.99)) - 1);
    const fast = gaps.filter((gap) => gap.fast).map(({ timeMs }) => (timeMs - start) / 3_600_000);
    expect(fast.length).toBeGreaterThan(2);
    expect(fast.every((hour) => hour > 404 && hour <= 433)).toBe(true);
    // Of the 34 checks from hour 400 to 433 one in 100 would have failed; the long gaps around are no part of it.
    expect(runs).toEqual([
      {
        fromMs: start + 400 * 3_600_000,
        untilMs: start + (fast.at(-1) ?? NaN) * 3_600_000,
        failed: 8,
        expected: 0.34
      }
    ]);
    // The open gap of 99 checks: exp(-99 / 99).
    expect(openChance).toBeCloseTo(Math.exp(-1), 12);
  });

  it('know no pace below five failures', () => {
    const { pace, limits, openChance } = answer(contextOf(hourly(100, [3, 50, 70, 80])), 'sampleGaps', {
      filter: {},
      check
    });
    expect([pace, limits]).toEqual([null, null]);
    expect(openChance).toBeNaN();
  });
});

describe('failures between suppliers', () => {
  /** So many checks of a supplier, of which so many fail. */
  function checks(supplier: string, results: number, failed: number, first: number): Literal[] {
    return Array.from({ length: results }, (_none, i) =>
      ticket(first + i, i, 'JARV', i < failed ? 'failed' : 'passed', { supplier })
    );
  }
  const context = contextOf([
    ...checks('Ostrel Fuels', 200, 8, 0),
    ...checks('Sundrift Jet Supply', 300, 2, 1_000),
    ...checks('Pellam & Roe', 40, 3, 2_000)
  ]);
  const asked = { filter: {}, by: 'supplier' as const, check };

  it('are compared with all others together, or with one', () => {
    const whole = answer(context, 'sampleRatio', { ...asked, against: '' });
    const ostrel = whole.groups.find(({ name }) => name === 'Ostrel Fuels');
    expect([ostrel?.failed, ostrel?.results, ostrel?.againstFailed, ostrel?.againstResults]).toEqual([
      8, 200, 5, 340
    ]);
    expect(ostrel?.ratio).toBeCloseTo(8 / 200 / (5 / 340), 12);
    const one = answer(context, 'sampleRatio', { ...asked, against: 'Sundrift Jet Supply' });
    expect(one.groups.map(({ name }) => name)).toEqual(['Ostrel Fuels', 'Pellam & Roe']);
    expect(one.groups[0]?.ratio).toBeCloseTo(6, 12);
  });

  it('have an interval whose ends the binomial law of their share reaches by exactly 2.5 %', () => {
    const [ostrel] = answer(context, 'sampleRatio', { ...asked, against: 'Sundrift Jet Supply' }).groups;
    // Given 10 failures together, the first side has Binomial(10, r E1 / (r E1 + E2)) of them.
    const choose = (n: number, k: number): number => (k === 0 ? 1 : (choose(n, k - 1) * (n - k + 1)) / k);
    const atLeast = (k: number, ratio: number) => {
      const p = (ratio * 200) / (ratio * 200 + 300);
      let sum = 0;
      for (let i = k; i <= 10; i++) sum += choose(10, i) * p ** i * (1 - p) ** (10 - i);
      return sum;
    };
    expect(atLeast(8, ostrel?.ratioLower ?? NaN)).toBeCloseTo(0.025, 9);
    expect(1 - atLeast(9, ostrel?.ratioUpper ?? NaN)).toBeCloseTo(0.025, 9);
    expect(ostrel?.enough).toBe(true);
  });

  it('are too few to say below 100 checks a side', () => {
    const { groups } = answer(context, 'sampleRatio', { ...asked, against: '' });
    expect(groups.find(({ name }) => name === 'Pellam & Roe')?.enough).toBe(false);
  });
});
