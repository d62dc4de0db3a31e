import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { expectedEvents } from '#lib/core/statistics/expected-events.ts';
import { moments } from '#lib/core/statistics/moments.ts';
import {
  stratifiedMeanDifference,
  stratifiedRateDifference
} from '#lib/core/statistics/stratified-difference.ts';
import type { Stratum } from '#lib/core/statistics/stratified.ts';
import { must } from '../../../reference/method.ts';

const newcombe = 'Newcombe 1998, Statistics in Medicine 17:873, Table II, Miettinen-Nurminen';

/** Renal stones: Charig et al. 1986, BMJ 292:879, small and large stones. */
const stones: Stratum[] = [
  { x1: 81, n1: 87, x2: 234, n2: 270 },
  { x1: 192, n1: 263, x2: 55, n2: 80 }
];

describe('the difference of two rates', () => {
  it.each([
    { of: [56, 70, 48, 80], lower: 0.0528, upper: 0.3382, source: newcombe },
    { of: [9, 10, 3, 10], lower: 0.17, upper: 0.8406, source: newcombe },
    { of: [5, 56, 0, 29], lower: -0.0326, upper: 0.1933, source: newcombe },
    { of: [0, 10, 0, 20], lower: -0.1658, upper: 0.2844, source: newcombe },
    { of: [10, 10, 0, 20], lower: 0.7156, upper: 1, source: newcombe }
  ])('has the published score interval for $of', ({ of: [x1 = 0, n1 = 0, x2 = 0, n2 = 0], lower, upper }) => {
    const found = must(stratifiedRateDifference([{ x1, n1, x2, n2 }]));
    expect(found.difference).toBeCloseTo(x1 / n1 - x2 / n2, 14);
    expect(found.lower).toBeCloseTo(lower, 4);
    expect(found.upper).toBeCloseTo(upper, 4);
  });

  // Limits: the restricted likelihood maximised by a general optimiser and the score solved by Brent's method (scipy).
  it.each([
    { name: 'renal stones', strata: stones, lower: -0.0142002917, upper: 0.1192026299 },
    {
      name: 'strata with few and with no events, constructed for this project',
      strata: [
        { x1: 0, n1: 30, x2: 0, n2: 40 },
        { x1: 2, n1: 25, x2: 0, n2: 11 },
        { x1: 1, n1: 4, x2: 3, n2: 9 }
      ],
      lower: -0.0856548733,
      upper: 0.1121019495
    }
  ])('over strata is that of another computation: $name', ({ strata, lower, upper }) => {
    const found = must(stratifiedRateDifference(strata));
    expect(found.lower).toBeCloseTo(lower, 6);
    expect(found.upper).toBeCloseTo(upper, 6);
  });

  it('weighs strata by n1 n2 / (n1 + n2), so that the two fair rates differ by it', () => {
    const found = must(stratifiedRateDifference(stones));
    const [small, large] = [(87 * 270) / 357, (263 * 80) / 343];
    const value1 = (small * (81 / 87) + large * (192 / 263)) / (small + large);
    const value2 = (small * (234 / 270) + large * (55 / 80)) / (small + large);
    expect(found.value1).toBeCloseTo(value1, 14);
    expect(found.value2).toBeCloseTo(value2, 14);
    expect(found.difference).toBeCloseTo(value1 - value2, 14);
    expect(found.weight).toBeCloseTo(small + large, 10);
  });

  it('turns over with its sides, holds the difference and is not moved by a stratum of one side', () => {
    const stratum = fc
      .tuple(fc.nat(40), fc.nat(40), fc.nat(40), fc.nat(40))
      .map(([a, b, c, d]): Stratum => ({ x1: Math.min(a, b), n1: b + 1, x2: Math.min(c, d), n2: d + 1 }));
    fc.assert(
      fc.property(fc.array(stratum, { minLength: 1, maxLength: 6 }), (strata) => {
        const found = must(stratifiedRateDifference([...strata, { x1: 3, n1: 9, x2: 0, n2: 0 }]));
        const swapped = strata.map((s) => ({ x1: s.x2, n1: s.n2, x2: s.x1, n2: s.n1 }));
        const back = must(stratifiedRateDifference(swapped));
        expect(found.commonStrata).toBe(strata.length);
        expect(found.lower).toBeLessThanOrEqual(found.difference + 1e-9);
        expect(found.upper).toBeGreaterThanOrEqual(found.difference - 1e-9);
        expect(found.lower).toBeCloseTo(-back.upper, 6);
        expect(found.upper).toBeCloseTo(-back.lower, 6);
      }),
      { numRuns: 60 }
    );
  });

  it('is not to be had without a common stratum', () => {
    expect(stratifiedRateDifference([{ x1: 1, n1: 5, x2: 0, n2: 0 }])).toMatchObject({ estimable: false });
    expect(stratifiedMeanDifference([])).toMatchObject({ estimable: false, reason: 'not-separable' });
  });
});

describe('the difference of two means', () => {
  // Extra hours of sleep under two drugs: Student 1908, Biometrika 6:1.
  const first = [0.7, -1.6, -0.2, -1.2, -0.1, 3.4, 3.7, 0.8, 0, 2];
  const second = [1.9, 0.8, 1.1, 0.1, -0.1, 4.4, 5.5, 1.6, 4.6, 3.4];
  const stratumOf = (a: readonly number[], b: readonly number[]) => {
    const [m1, m2] = [moments(a), moments(b)];
    return {
      n1: a.length,
      mean1: m1.mean,
      variance1: m1.variance,
      n2: b.length,
      mean2: m2.mean,
      variance2: m2.variance
    };
  };

  it("of one stratum is Student's with one spread", () => {
    const found = must(stratifiedMeanDifference([stratumOf(first, second)]));
    // The two-sample t interval with equal variances as R prints it for these data: from memory.
    expect(found.difference).toBeCloseTo(-1.58, 12);
    expect(found.lower).toBeCloseTo(-3.363874, 5);
    expect(found.upper).toBeCloseTo(0.203874, 5);
  });

  it('does not see what all of a stratum share', () => {
    const plain = must(stratifiedMeanDifference([stratumOf(first, second), stratumOf(second, first)]));
    const lifted = must(
      stratifiedMeanDifference([
        stratumOf(first, second),
        stratumOf(
          second.map((x) => x + 7),
          first.map((x) => x + 7)
        )
      ])
    );
    expect(plain.difference).toBeCloseTo(0, 12);
    expect(lifted.difference).toBeCloseTo(0, 12);
    expect(lifted.lower).toBeCloseTo(plain.lower, 10);
  });

  it('takes a stratum with one value on a side, its spread from the other', () => {
    const one = { n1: 1, mean1: 5, variance1: NaN, n2: 4, mean2: 3, variance2: 2 };
    const found = must(stratifiedMeanDifference([one]));
    expect(found.difference).toBeCloseTo(2, 12);
    // t of 3 degrees of freedom at 97.5 %: 3.182446 in every table.
    expect(found.upper - 2).toBeCloseTo(3.182446 * Math.sqrt(2 * (1 + 1 / 4)), 5);
  });
});

describe('events expected of each unit', () => {
  /** One trial an entry, from counts: unit, stratum, events, total. */
  function trialsOf(counts: readonly (readonly [number, number, number, number])[]) {
    const units: number[] = [];
    const strata: number[] = [];
    const events: number[] = [];
    for (const [unit, stratum, x, n] of counts) {
      for (let i = 0; i < n; i++) {
        units.push(unit);
        strata.push(stratum);
        events.push(i < x ? 1 : 0);
      }
    }
    return { units, unitCount: 1 + Math.max(...units), strata, strataCount: 1 + Math.max(...strata), events };
  }

  it('are those of each stratum’s own rate: renal stones, by hand', () => {
    const found = expectedEvents(
      trialsOf([
        [0, 0, 81, 87],
        [0, 1, 192, 263],
        [1, 0, 234, 270],
        [1, 1, 55, 80]
      ])
    );
    expect(found.expected[0]).toBeCloseTo((87 * 315) / 357 + (263 * 247) / 343, 9);
    expect(found.expected[1]).toBeCloseTo((270 * 315) / 357 + (80 * 247) / 343, 9);
    expect([...found.observed]).toEqual([273, 289]);
  });

  it('leave out a stratum that one unit has to itself, and say how much that is', () => {
    const found = expectedEvents(
      trialsOf([
        [0, 0, 2, 10],
        [1, 0, 4, 10],
        [1, 1, 9, 10]
      ])
    );
    expect([...found.totals]).toEqual([10, 20]);
    expect([...found.shared]).toEqual([10, 10]);
    expect([...found.observed]).toEqual([2, 4]);
    expect(found.expected[1]).toBeCloseTo(3, 12);
  });

  it('add up to those observed', () => {
    const trial = fc.tuple(fc.nat(4), fc.nat(3), fc.nat(1));
    fc.assert(
      fc.property(fc.array(trial, { minLength: 1, maxLength: 80 }), (trials) => {
        const found = expectedEvents({
          units: trials.map(([unit]) => unit),
          unitCount: 5,
          strata: trials.map(([, stratum]) => stratum),
          strataCount: 4,
          events: trials.map(([, , event]) => event)
        });
        const sum = (values: Float64Array) => values.reduce((total, value) => total + value, 0);
        expect(sum(found.expected)).toBeCloseTo(sum(found.observed), 9);
        expect(sum(found.totals)).toBe(trials.length);
      }),
      { numRuns: 60 }
    );
  });
});
