import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { pairedStep } from '#lib/core/statistics/paired-step.ts';
import { spreadRatio } from '#lib/core/statistics/spread-ratio.ts';
import { withinSlope } from '#lib/core/statistics/within-slope.ts';
import { must } from '../../../reference/method.ts';

/** NIST StRD, linear regression, data set Norris: pairs of y and x. */
const norris = [
  0.1, 0.2, 338.8, 337.4, 118.1, 118.2, 888.0, 884.6, 9.2, 10.1, 228.1, 226.5, 668.5, 666.3, 998.5, 996.3,
  449.1, 448.6, 778.9, 777.0, 559.2, 558.2, 0.3, 0.4, 0.1, 0.6, 778.1, 775.5, 668.8, 666.9, 339.3, 338.0,
  448.9, 447.5, 10.8, 11.6, 557.7, 556.0, 228.3, 228.1, 998.0, 995.8, 888.8, 887.6, 119.6, 120.2, 0.3, 0.3,
  0.6, 0.3, 557.6, 556.8, 339.3, 339.1, 888.0, 887.2, 998.5, 999.0, 778.9, 779.0, 10.2, 11.1, 117.6, 118.3,
  228.9, 229.2, 668.4, 669.1, 449.2, 448.9, 0.2, 0.5
];
const norrisY = Float64Array.from({ length: 36 }, (_none, i) => norris[2 * i] ?? NaN);
const norrisX = Float64Array.from({ length: 36 }, (_none, i) => norris[2 * i + 1] ?? NaN);

const codes = (n: number, of: (i: number) => number) => Int32Array.from({ length: n }, (_none, i) => of(i));

describe('a slope inside groups', () => {
  it('is with one group the certified slope of NIST StRD Norris', () => {
    const fit = must(
      withinSlope(
        norrisX,
        norrisY,
        codes(36, () => 0),
        codes(36, (i) => i)
      )
    );
    expect(fit.slope).toBeCloseTo(1.00211681802045, 11);
    expect([fit.n, fit.groups, fit.clusters]).toEqual([36, 1, 36]);
    // Certified: 0.000429796848199937 for equal variances; a sandwich over single values comes near it.
    expect(fit.standardError).toBeGreaterThan(0.0003);
    expect(fit.standardError).toBeLessThan(0.0006);
  });

  it('does not change when a group is lifted or the scale is turned', () => {
    const number = fc.integer({ min: -50, max: 50 });
    fc.assert(
      fc.property(
        fc.array(fc.tuple(number, number), { minLength: 24, maxLength: 24 }),
        number,
        number,
        (pairs, lift, shift) => {
          const x = Float64Array.from(pairs, ([a]) => a);
          const y = Float64Array.from(pairs, ([, b]) => b);
          const group = codes(24, (i) => i % 3);
          const cluster = codes(24, (i) => i % 12);
          const plain = withinSlope(x, y, group, cluster);
          const lifted = withinSlope(
            x.map((value) => value + shift),
            y.map((value, i) => value + (i % 3 === 1 ? lift : 0)),
            group,
            cluster
          );
          if (!plain.estimable || !lifted.estimable) return;
          expect(lifted.slope).toBeCloseTo(plain.slope, 9);
          expect(lifted.standardError).toBeCloseTo(plain.standardError, 9);
        }
      ),
      { numRuns: 40 }
    );
  });

  it('has a standard error that counts values copied into one cluster once', () => {
    const twice = <T extends Float64Array | Int32Array>(values: T, of: (from: T, i: number) => number) =>
      Array.from({ length: 72 }, (_none, i) => of(values, i % 36));
    const at = (values: Float64Array | Int32Array, i: number) => values[i] ?? NaN;
    const own = codes(36, (i) => i);
    const none = codes(36, () => 0);
    const once = must(withinSlope(norrisX, norrisY, none, own));
    const copied = must(
      withinSlope(
        Float64Array.from(twice(norrisX, at)),
        Float64Array.from(twice(norrisY, at)),
        Int32Array.from(twice(none, at)),
        Int32Array.from(twice(own, at))
      )
    );
    expect(copied.slope).toBeCloseTo(once.slope, 12);
    expect(copied.standardError).toBeCloseTo(once.standardError, 12);
  });

  it('needs x to vary inside a group, and ten clusters', () => {
    const x = Float64Array.from([1, 2, 3, 4]);
    expect(
      withinSlope(
        x,
        x,
        codes(4, (i) => i),
        codes(4, (i) => i)
      )
    ).toMatchObject({ estimable: false, reason: 'no-variation' });
    expect(
      withinSlope(
        x,
        x,
        codes(4, () => 0),
        codes(4, (i) => i)
      )
    ).toMatchObject({ estimable: false, reason: 'too-few', have: 4 });
  });
});

describe('the ratio of two spreads', () => {
  it('is out of its interval where the F test of NIST 1.3.5.9 rejects, and in it where it does not', () => {
    // Ceramic strength, 240 values a batch: F = 1.123037 with limits 0.7756 and 1.2894 at 5 %: not rejected.
    const { ratio, lower, upper } = spreadRatio(61.85425, 239, 65.54909, 239);
    expect(ratio ** 2).toBeCloseTo(1.123037, 5);
    expect(1 / (lower / ratio) ** 2).toBeCloseTo(1.2894, 3);
    expect(1 / (upper / ratio) ** 2).toBeCloseTo(0.7756, 3);
    expect(lower).toBeLessThan(1);
    expect(upper).toBeGreaterThan(1);
  });

  it('turns with its sides', () => {
    const there = spreadRatio(2, 40, 3, 90);
    const back = spreadRatio(3, 90, 2, 40);
    expect(there.lower * back.upper).toBeCloseTo(1, 9);
    expect(there.upper * back.lower).toBeCloseTo(1, 9);
    expect(() => spreadRatio(1, 0, 1, 4)).toThrow(RangeError);
  });
});

/** Least squares with one level a stratum and one step, by the normal equations of the values themselves. */
function leastSquaresStep(values: Float64Array, stratum: Int32Array, side: Uint8Array): number {
  // Sweeping the strata out of both the values and the side leaves the plain slope of one on the other.
  const meanOf = (of: ArrayLike<number>, code: number) => {
    const own = Array.from(of).filter((_value, i) => stratum[i] === code);
    return own.reduce((sum, value) => sum + value, 0) / own.length;
  };
  let [xx, xy] = [0, 0];
  values.forEach((value, i) => {
    const code = stratum[i] ?? 0;
    const x = (side[i] ?? 0) - meanOf(side, code);
    xx += x * x;
    xy += x * (value - meanOf(values, code));
  });
  return xy / xx;
}

describe('a step on both sides of a moment, inside strata', () => {
  const records = fc.array(
    fc.tuple(fc.integer({ min: -40, max: 40 }), fc.integer({ min: 0, max: 3 }), fc.boolean()),
    { minLength: 60, maxLength: 80 }
  );
  const columns = (rows: readonly (readonly [number, number, boolean])[]) =>
    [
      Float64Array.from(rows, ([value]) => value),
      Int32Array.from(rows, ([, stratum]) => stratum),
      Uint8Array.from(rows, ([, , after]) => (after ? 1 : 0))
    ] as const;

  it('is the step of least squares with one level a stratum', () => {
    fc.assert(
      fc.property(records, (rows) => {
        const [values, stratum, side] = columns(rows);
        const step = pairedStep(values, stratum, side);
        if (!step.estimable) return;
        expect(step.difference).toBeCloseTo(leastSquaresStep(values, stratum, side), 9);
        expect(step.n1 + step.n2 + step.alone1 + step.alone2).toBe(rows.length);
      }),
      { numRuns: 40 }
    );
  });

  it('leaves out a stratum that has one side only, whatever it holds', () => {
    fc.assert(
      fc.property(records, fc.integer({ min: -9000, max: 9000 }), (rows, wild) => {
        const [values, stratum, side] = columns(rows);
        const more = columns([...rows, [wild, 9, true], [wild + 1, 9, true]]);
        const [plain, wide] = [pairedStep(values, stratum, side), pairedStep(...more)];
        if (!plain.estimable || !wide.estimable) return;
        expect(wide.difference).toBe(plain.difference);
        expect(wide.standardError).toBe(plain.standardError);
        expect(wide.alone2).toBe(plain.alone2 + 2);
      }),
      { numRuns: 20 }
    );
  });

  it('has by hand: two strata, means 1 to 2 and 5 to 8, ten values each side', () => {
    const rows: [number, number, boolean][] = [];
    const add = (mean: number, stratum: number, after: boolean, n: number) => {
      for (let i = 0; i < n; i++) rows.push([mean + (i % 2 === 0 ? 1 : -1), stratum, after]);
    };
    add(1, 0, false, 10);
    add(2, 0, true, 10);
    add(5, 1, false, 10);
    add(8, 1, true, 30);
    const step = must(pairedStep(...columns(rows)));
    // Weights 10 x 10 / 20 = 5 and 10 x 30 / 40 = 7.5.
    expect(step.difference).toBeCloseTo((5 * 1 + 7.5 * 3) / 12.5, 12);
    expect([step.df1, step.df2]).toEqual([18, 38]);
    expect(step.spread1).toBeCloseTo(Math.sqrt(20 / 18), 12);
    expect(step.spread2).toBeCloseTo(Math.sqrt(40 / 38), 12);
    const variance = (25 * (20 / 18 / 10 + 40 / 38 / 10) + 56.25 * (20 / 18 / 10 + 40 / 38 / 30)) / 12.5 ** 2;
    expect(step.standardError).toBeCloseTo(Math.sqrt(variance), 12);
  });

  it('needs a stratum on both sides, and ten degrees of freedom a side', () => {
    expect(
      pairedStep(
        ...columns([
          [1, 0, false],
          [2, 1, true]
        ])
      )
    ).toMatchObject({
      estimable: false,
      reason: 'not-separable'
    });
    expect(
      pairedStep(
        ...columns([
          [1, 0, false],
          [2, 0, true]
        ])
      )
    ).toMatchObject({
      estimable: false,
      reason: 'too-few'
    });
  });
});
