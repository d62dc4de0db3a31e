import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { qn, sn } from '#lib/core/statistics/pairwise-scale.ts';
import {
  huberLocation,
  huberProposal2,
  medianAbsoluteDeviation,
  robustScale
} from '#lib/core/statistics/robust-location.ts';
import { must } from '../../../reference/method.ts';

const stepped = fc.array(fc.integer({ min: -40, max: 40 }), { minLength: 2, maxLength: 40 });
const smooth = fc.array(
  fc.integer({ min: -1e6, max: 1e6 }).map((x) => x / 1e4),
  { minLength: 5, maxLength: 40 }
);

/** The definition, by all pairs; the factors for n = 10 and 11 from Croux & Rousseeuw. */
function pairDistance(xs: readonly number[]): number {
  const half = Math.floor(xs.length / 2) + 1;
  const distances = xs.flatMap((x, i) => xs.slice(i + 1).map((y) => Math.abs(x - y)));
  return distances.sort((p, q) => p - q)[(half * (half - 1)) / 2 - 1] ?? NaN;
}

function nestedMedian(xs: readonly number[]): number {
  const n = xs.length;
  const ascending = (p: number, q: number): number => p - q;
  const inner = xs.map((x) => xs.map((y) => Math.abs(x - y)).sort(ascending)[Math.floor(n / 2)] ?? NaN);
  return inner.sort(ascending)[Math.floor((n + 1) / 2) - 1] ?? NaN;
}

describe('Qn and Sn', () => {
  it.each([
    ['stepped', stepped],
    ['smooth', smooth]
  ])('rest on the same distances as all pairs by brute force, %s values', (_, samples) => {
    fc.assert(
      fc.property(samples, (xs) => {
        // The factor depends on n alone: it is read off an evenly spaced sample.
        const even = xs.map((_x, i) => i);
        const factor = qn(even) / pairDistance(even);
        expect(qn(xs)).toBeCloseTo(factor * pairDistance(xs), 8);
        expect(sn(xs)).toBeCloseTo((sn(even) / nestedMedian(even)) * nestedMedian(xs), 8);
      })
    );
  });

  it('need two values', () => {
    expect(qn([1])).toBeNaN();
    expect(sn([1, NaN])).toBeNaN();
  });

  it('manage two thousand tied and untied values', () => {
    const xs = Float64Array.from({ length: 2000 }, (_, i) => (i % 2 === 0 ? 5 : Math.sin(i) * 3));
    expect(qn(xs)).toBeGreaterThan(0);
  });
});

describe('robust centres', () => {
  it('move with the values and stretch with them', () => {
    fc.assert(
      fc.property(smooth, (xs) => {
        fc.pre(medianAbsoluteDeviation(xs) > 0.1);
        const moved = xs.map((x) => 3 * x + 7);
        expect(huberLocation(moved)).toBeCloseTo(3 * huberLocation(xs) + 7, 6);
        expect(qn(moved)).toBeCloseTo(3 * qn(xs), 8);
      })
    );
  });

  it('hold against a gross error', () => {
    const xs = [1, 2, 3, 4, 5, 6, 7, 8, 9];
    expect(huberLocation([...xs, 1e9])).toBeLessThan(7);
    expect(must(huberProposal2([...xs, 1e9])).location).toBeLessThan(9);
  });

  it('are the mean when nothing lies far out', () => {
    expect(huberLocation([1, 2, 3, 4, 5])).toBe(3);
  });
});

describe('a robust scale is never 0', () => {
  it('is the MAD, or one step of the instrument where more than half is tied', () => {
    expect(must(robustScale([1, 2, 3, 4], 0.1))).toMatchObject({ rule: 'mad', scale: 1.4826 });
    const tied = must(robustScale([5, 5, 5, 5, 5, 5, 5, 6], 0.1));
    expect(tied).toMatchObject({ rule: 'resolution', scale: 0.1 / Math.sqrt(12) });
    expect(must(robustScale([5, 5, 5, 6]))).toMatchObject({
      rule: 'mean-deviation',
      scale: Math.sqrt(Math.PI / 2) / 4
    });
  });

  it('cannot be Qn where the MAD is 0, for Qn is 0 there too', () => {
    const half = fc.integer({ min: 2, max: 15 });
    fc.assert(
      fc.property(
        half,
        fc.array(fc.integer({ min: -9, max: 9 }), { minLength: 1, maxLength: 15 }),
        (most, rest) => {
          const xs = [...new Array<number>(Math.max(most, rest.length + 1)).fill(5), ...rest];
          expect(medianAbsoluteDeviation(xs)).toBe(0);
          expect(qn(xs)).toBe(0);
        }
      )
    );
  });

  it('says so when nothing varies or there is too little', () => {
    expect(robustScale([5, 5, 5])).toMatchObject({ estimable: false, reason: 'no-variation' });
    expect(robustScale([5])).toMatchObject({ estimable: false, reason: 'too-few', have: 1, need: 2 });
    expect(huberProposal2([5, 5, 5, 5])).toMatchObject({ estimable: false, reason: 'no-variation' });
  });
});
