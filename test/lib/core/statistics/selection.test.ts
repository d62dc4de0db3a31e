import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { quantilesSorted, quantilesUnsorted } from '#lib/core/statistics/index.ts';

const shares = [0, 0.05, 0.25, 0.5, 0.75, 0.95, 1];

/** Values of several habits: few different ones, a wide spread, wild ones far out. */
const value = fc.oneof(
  fc.integer({ min: 7900, max: 8100 }).map((tenths) => tenths / 10),
  fc.double({ noNaN: true, noDefaultInfinity: true, min: -50, max: 50 }),
  fc.constantFrom(1e9, -1e300, 1e300, 5e-324)
);

describe('quantiles without sorting', () => {
  it('are the same numbers as with it', () => {
    fc.assert(
      fc.property(fc.array(value, { minLength: 0, maxLength: 3000, size: 'max' }), (values) => {
        const given = Float64Array.from(values);
        const sorted = given.slice().sort();
        const found = quantilesUnsorted(given, shares);
        quantilesSorted(sorted, shares).forEach((need, i) => {
          expect(found[i] === need || Object.is(found[i], need)).toBe(true);
        });
        expect(given).toEqual(Float64Array.from(values));
      }),
      { numRuns: 60 }
    );
  });
});
