import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { poissonCdf, poissonUpper } from '#lib/core/statistics/distributions.ts';
import { poissonExact, rateRatio } from '#lib/core/statistics/event-rates.ts';

const count = fc.integer({ min: 0, max: 400 });
const exposure = fc.double({ min: 0.1, max: 1e5, noNaN: true });

describe('the exact interval of a rate', () => {
  it('puts exactly half of the doubt beyond each limit', () => {
    fc.assert(
      fc.property(count, exposure, (y, e) => {
        const { lower, upper } = poissonExact(y, e);
        if (y > 0) expect(poissonUpper(y, lower * e)).toBeCloseTo(0.025, 8);
        expect(poissonCdf(y, upper * e)).toBeCloseTo(0.025, 8);
        expect(lower).toBeLessThanOrEqual(y / e);
        expect(upper).toBeGreaterThan(y / e);
      })
    );
  });

  it('refuses counts and exposures that cannot be', () => {
    expect(() => poissonExact(-1, 1)).toThrow(/count: -1/);
    expect(() => poissonExact(1, 0)).toThrow(/exposure: 0/);
  });
});

describe('the ratio of two rates', () => {
  it('holds 1 exactly when its p is above 0.05', () => {
    fc.assert(
      fc.property(count, exposure, count, exposure, (y1, e1, y2, e2) => {
        const { lower, upper, pValue } = rateRatio(y1, e1, y2, e2);
        fc.pre(Math.abs(pValue - 0.05) > 1e-6);
        expect(lower <= 1 && upper >= 1).toBe(pValue > 0.05);
      })
    );
  });

  it('turns over when the sides change places', () => {
    const [forward, back] = [rateRatio(7, 2000, 2, 2600), rateRatio(2, 2600, 7, 2000)];
    expect(forward.ratio * back.ratio).toBeCloseTo(1, 12);
    expect(forward.lower * back.upper).toBeCloseTo(1, 8);
    expect(forward.pValue).toBeCloseTo(back.pValue, 12);
  });

  it('says nothing where nothing happened', () => {
    expect(rateRatio(0, 5, 0, 9)).toEqual({ ratio: NaN, lower: 0, upper: Infinity, pValue: 1 });
    expect(rateRatio(3, 5, 0, 9).upper).toBe(Infinity);
  });
});
