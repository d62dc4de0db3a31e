import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { oneChange } from '#lib/core/statistics/changes/one-change.ts';
import {
  changePenalty,
  scanTail,
  scanThreshold,
  siegmundTail
} from '#lib/core/statistics/changes/scan-tail.ts';
import { noiseFromDifferences } from '#lib/core/statistics/changes/series.ts';
import { severalChanges } from '#lib/core/statistics/changes/several-changes.ts';
import { must } from '../../../../reference/method.ts';

const series = fc.array(fc.double({ min: -9, max: 9, noNaN: true }), { minLength: 4, maxLength: 9 });

function squares(xs: readonly number[]): number {
  const mean = xs.reduce((sum, x) => sum + x, 0) / xs.length;
  return xs.reduce((sum, x) => sum + (x - mean) ** 2, 0);
}

/** The least objective by trying every partition. */
function leastObjective(xs: readonly number[], sigma: number, penalty: number): number {
  const cost = (segments: number[][]): number =>
    segments.reduce((sum, s) => sum + squares(s) / sigma ** 2, 0) + penalty * (segments.length - 1);
  const partitions = Array.from({ length: 2 ** (xs.length - 1) }, (_, mask) =>
    xs.reduce<number[][]>((segments, x, i) => {
      const last = segments[segments.length - 1];
      if (last === undefined || ((mask >> (i - 1)) & 1) === 1) return [...segments, [x]];
      last.push(x);
      return segments;
    }, [])
  );
  return partitions.reduce((least, partition) => Math.min(least, cost(partition)), Infinity);
}

describe('several changes', () => {
  it('are the cheapest of all partitions', () => {
    fc.assert(
      fc.property(series, fc.double({ min: 0.5, max: 20, noNaN: true }), (xs, penalty) => {
        const found = must(severalChanges(xs, 1.5, penalty));
        expect(found.objective).toBeCloseTo(leastObjective(xs, 1.5, penalty), 8);
        expect(found.segments.length).toBe(found.before.length + 1);
        expect(found.segments.reduce((sum, segment) => sum + segment.n, 0)).toBe(xs.length);
      }),
      { numRuns: 40 }
    );
  });

  it('keep their places where values are missing', () => {
    const found = must(severalChanges([0, NaN, 0, 0, NaN, 9, 9, 9], 1, 8));
    expect(found.segments).toEqual([
      { from: 0, to: 3, mean: 0, n: 3 },
      { from: 5, to: 7, mean: 9, n: 3 }
    ]);
  });

  it('need a value and a noise', () => {
    expect(severalChanges([NaN], 1, 8)).toMatchObject({ estimable: false, reason: 'too-few' });
    expect(() => severalChanges([1, 2], 0, 8)).toThrow(/sigma: 0/);
  });
});

describe('one change', () => {
  it('is the split that leaves the least squares', () => {
    fc.assert(
      fc.property(series, (xs) => {
        const found = must(oneChange(xs, 2));
        const splits = Array.from({ length: xs.length - 3 }, (_, i) => i + 2);
        const best = Math.min(...splits.map((k) => squares(xs.slice(0, k)) + squares(xs.slice(k))));
        expect(found.squaresWith).toBeCloseTo(best, 8);
        expect(found.statistic ** 2 * 4).toBeCloseTo(found.squaresWithout - found.squaresWith, 6);
      })
    );
  });

  it('is placed in the series with its gaps', () => {
    const found = must(oneChange([0, 0, NaN, 0, NaN, 7, 7, 7], 1));
    expect(found.before).toBe(3);
    expect(found.index).toBe(5);
    expect(found.meanAfter - found.meanBefore).toBeCloseTo(7, 12);
  });

  it('needs two values on each side', () => {
    expect(oneChange([1, 2, 3], 1)).toMatchObject({ estimable: false, reason: 'too-few', have: 3, need: 4 });
  });
});

describe('the chance of a change in an unchanged series', () => {
  // Formula values computed for this project in R; simulation there gave .0273 and .0456.
  it.each([
    [24, 0.0262],
    [60, 0.0451]
  ])('at b = 3 and n = %d', (n, want) => {
    expect(Math.abs(siegmundTail(3, n) - want)).toBeLessThan(6e-5);
    expect(scanTail(3, n)).toBe(siegmundTail(3, n));
  });

  it('is the sum over all splits for short series', () => {
    // 2 (n - 3) P(Z > 3).
    expect(scanTail(3, 12)).toBeCloseTo(2 * 9 * 0.001349898, 8);
  });

  // Computed for this project in R: 500 series, one in ten of which a false change is accepted.
  it.each([
    [24, 18.8],
    [36, 19.4],
    [60, 20.0]
  ])('prices a change at n = %d', (n, want) => {
    expect(Math.abs(changePenalty(n, 500, 0.1) - want)).toBeLessThan(0.06);
  });

  it('comes back from its threshold', () => {
    expect(scanTail(scanThreshold(40, 0.01), 40)).toBeCloseTo(0.01, 9);
    expect(scanTail(scanThreshold(12, 0.01), 12)).toBeCloseTo(0.01, 9);
    expect(() => scanThreshold(3, 0.01)).toThrow(/series: 3 values, need 4/);
    expect(() => scanThreshold(30, 0.7)).toThrow(/chance: 0.7/);
  });
});

describe('noise from differences', () => {
  it('hardly sees a step', () => {
    const wave = Array.from({ length: 60 }, (_, i) => Math.sin(i * 2.3));
    const stepped = wave.map((x, i) => (i < 30 ? x : x + 50));
    expect(noiseFromDifferences(stepped) / noiseFromDifferences(wave)).toBeLessThan(1.06);
    expect(noiseFromDifferences([1, NaN, 2])).toBeNaN();
  });
});
