import { describe, expect, it } from 'vitest';
import { continuedFraction, regularisedBeta, regularisedGamma } from '#lib/core/statistics/special.ts';

describe('special functions', () => {
  it('give no number for no number, at once', () => {
    expect(regularisedGamma(0.5, NaN)).toEqual({ lower: NaN, upper: NaN });
    expect(regularisedGamma(NaN, 1)).toEqual({ lower: NaN, upper: NaN });
    expect(regularisedBeta(NaN, 1, 2)).toBeNaN();
    expect(regularisedBeta(0.5, NaN, 2)).toBeNaN();
  });

  it('end a continued fraction once only rounding moves it', () => {
    // Where the fraction is slowest: just right of the series' range.
    for (let step = 0; step < 2000; step += 1) {
      let terms = 0;
      const x = 1.5 + step * 1e-4;
      continuedFraction(x + 0.5, (k) => {
        terms = k;
        return [-k * (k - 0.5), x + 2 * k + 0.5];
      });
      expect(terms).toBeLessThan(200);
    }
  });
});
