import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { binomialCdf, binomialUpper } from '#lib/core/statistics/distributions.ts';
import { clopperPearson, jeffreys, newcombeDifference, wilson } from '#lib/core/statistics/proportions.ts';

const counts = fc
  .integer({ min: 1, max: 3000 })
  .chain((n) => fc.tuple(fc.integer({ min: 0, max: n }), fc.constant(n)));

describe.each([
  ['Wilson', wilson],
  ['Clopper-Pearson', clopperPearson],
  ['Jeffreys', jeffreys]
])('the %s interval', (_, interval) => {
  it('lies inside 0 to 1 and holds the proportion', () => {
    fc.assert(
      fc.property(counts, ([x, n]) => {
        const { lower, upper } = interval(x, n);
        expect(lower).toBeGreaterThanOrEqual(0);
        expect(lower).toBeLessThanOrEqual(x / n + 1e-12);
        expect(upper).toBeGreaterThanOrEqual(x / n - 1e-12);
        expect(upper).toBeLessThanOrEqual(1);
      })
    );
  });

  it('mirrors when events and the rest change places', () => {
    fc.assert(
      fc.property(counts, ([x, n]) => {
        const mirrored = interval(n - x, n);
        expect(interval(x, n).lower).toBeCloseTo(1 - mirrored.upper, 9);
        expect(interval(x, n).upper).toBeCloseTo(1 - mirrored.lower, 9);
      })
    );
  });

  it('narrows with less confidence', () => {
    fc.assert(
      fc.property(counts, ([x, n]) => {
        const [wide, narrow] = [interval(x, n, 0.99), interval(x, n, 0.8)];
        expect(wide.upper - wide.lower).toBeGreaterThan(narrow.upper - narrow.lower);
      })
    );
  });

  it('ends exactly at 0 and 1', () => {
    expect(interval(0, 17).lower).toBe(0);
    expect(interval(17, 17).upper).toBe(1);
  });

  it('refuses counts and confidences that cannot be', () => {
    expect(() => interval(5, 4)).toThrow(/count: 5 of 4/);
    expect(() => interval(-1, 4)).toThrow(RangeError);
    expect(() => interval(1.5, 4)).toThrow(RangeError);
    expect(() => interval(1, 4, 1)).toThrow(/confidence: 1/);
  });
});

describe('with nothing counted', () => {
  it('an interval says nothing is known', () => {
    expect(wilson(0, 0)).toEqual({ lower: 0, upper: 1 });
    expect(clopperPearson(0, 0)).toEqual({ lower: 0, upper: 1 });
  });

  it('a difference is not a number', () => {
    expect(newcombeDifference(0, 0, 3, 9)).toEqual({ difference: NaN, lower: -1, upper: 1 });
  });
});

describe('Clopper-Pearson', () => {
  it('puts exactly half of the doubt beyond each limit', () => {
    fc.assert(
      fc.property(counts, ([x, n]) => {
        const { lower, upper } = clopperPearson(x, n);
        if (x > 0) expect(binomialUpper(x, n, lower)).toBeCloseTo(0.025, 8);
        if (x < n) expect(binomialCdf(x, n, upper)).toBeCloseTo(0.025, 8);
      })
    );
  });
});

describe('the difference of two proportions', () => {
  it('changes sign when the sides change places', () => {
    fc.assert(
      fc.property(counts, counts, ([x1, n1], [x2, n2]) => {
        const [forward, back] = [newcombeDifference(x1, n1, x2, n2), newcombeDifference(x2, n2, x1, n1)];
        expect(forward.difference).toBeCloseTo(-back.difference, 12);
        expect(forward.lower).toBeCloseTo(-back.upper, 12);
        expect(forward.lower).toBeGreaterThanOrEqual(-1 - 1e-12);
      })
    );
  });
});
