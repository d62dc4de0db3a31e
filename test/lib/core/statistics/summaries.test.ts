import * as d3 from 'd3';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { boxSummary } from '#lib/core/statistics/box.ts';
import { kernelDensity, silvermanBandwidth } from '#lib/core/statistics/kernel-density.ts';
import { moments, weightedMean } from '#lib/core/statistics/moments.ts';
import { integrate } from '#lib/core/statistics/quadrature.ts';
import { quantile, quantileSorted, sortedPresent } from '#lib/core/statistics/quantiles.ts';
import { compensatedSum, exactSum } from '#lib/core/statistics/sums.ts';
import { must } from '../../../reference/method.ts';

const value = fc.double({ min: -1e6, max: 1e6, noNaN: true });
const values = fc.array(value, { minLength: 2, maxLength: 60 });
const withGaps = fc.array(fc.oneof({ weight: 4, arbitrary: value }, fc.constant(NaN)), { maxLength: 60 });

describe('sums', () => {
  it('keep what plain addition loses', () => {
    const hard = [1, 1e100, 1, -1e100];
    expect(compensatedSum(hard)).toBe(2);
    expect(exactSum(hard)).toBe(2);
    expect(compensatedSum(new Array<number>(10).fill(0.1))).toBe(1);
  });

  it('agree with exact summation and leave NaN out', () => {
    fc.assert(
      fc.property(withGaps, (xs) => {
        const size = xs.reduce((sum, x) => (Number.isNaN(x) ? sum : sum + Math.abs(x)), 0);
        expect(
          Math.abs(compensatedSum(xs) - exactSum(xs.filter((x) => !Number.isNaN(x))))
        ).toBeLessThanOrEqual(1e-15 * size);
      })
    );
  });

  it('keep an infinity', () => {
    expect(compensatedSum([1, Infinity, 2])).toBe(Infinity);
  });
});

describe('moments', () => {
  it('agree with a second implementation', () => {
    fc.assert(
      fc.property(values, (xs) => {
        const { n, mean, variance } = moments(xs);
        const spread = d3.variance(xs) ?? NaN;
        expect(n).toBe(xs.length);
        expect(Math.abs(mean - (d3.mean(xs) ?? NaN))).toBeLessThanOrEqual(1e-9);
        expect(Math.abs(variance - spread)).toBeLessThanOrEqual(1e-9 * spread + 1e-9);
      })
    );
  });

  it('of too few values are not numbers', () => {
    expect(moments([])).toEqual({ n: 0, mean: NaN, variance: NaN, standardDeviation: NaN });
    expect(moments([NaN, 4]).mean).toBe(4);
    expect(moments([NaN, 4]).variance).toBeNaN();
  });

  it('weigh values and pass over gaps', () => {
    expect(weightedMean([1, NaN, 3], [1, 5, 3])).toBe(2.5);
    expect(weightedMean([1], [0])).toBeNaN();
  });
});

describe('quantiles', () => {
  it('agree with a second implementation of type 7', () => {
    fc.assert(
      fc.property(values, fc.double({ min: 0, max: 1, noNaN: true }), (xs, p) => {
        const want = d3.quantile(xs, p) ?? NaN;
        expect(quantile(xs, p)).toBeCloseTo(want, 6);
      })
    );
  });

  it('leave NaN out and have none of nothing', () => {
    expect([...sortedPresent([3, NaN, 1])]).toEqual([1, 3]);
    expect(quantile([NaN], 0.5)).toBeNaN();
    expect(quantileSorted([5], 0.9)).toBe(5);
  });

  it('refuse a probability outside 0 to 1', () => {
    expect(() => quantileSorted([1, 2], 1.2)).toThrow(/probability: 1.2/);
  });
});

describe('a box', () => {
  it('has whiskers that are values, within its reach, and loses none', () => {
    fc.assert(
      fc.property(values, (xs) => {
        const box = must(boxSummary(xs));
        const reach = 1.5 * (box.upperQuartile - box.lowerQuartile);
        const inside = xs.filter((x) => x >= box.lowerWhisker && x <= box.upperWhisker);
        expect(xs).toContain(box.lowerWhisker);
        expect(xs).toContain(box.upperWhisker);
        expect(box.lowerWhisker).toBeGreaterThanOrEqual(box.lowerQuartile - reach);
        expect(inside.length + box.beyond.length).toBe(xs.length);
      })
    );
  });

  it('of nothing says so', () => {
    expect(boxSummary([NaN])).toEqual({ estimable: false, reason: 'too-few', have: 0, need: 1 });
  });
});

describe('a kernel density', () => {
  it('holds all of the values', () => {
    const xs = [798.5, 800.4, 799.9, 800, 801.9, 799.5];
    const bandwidth = silvermanBandwidth(xs);
    const area = integrate((x) => kernelDensity(xs, [x], bandwidth)[0] ?? NaN, 790, 810, 200);
    expect(area).toBeCloseTo(1, 9);
  });

  it('is never finer than the resolution, and none for one value', () => {
    expect(silvermanBandwidth([5, 5, 5], 0.1)).toBe(0.1);
    expect(silvermanBandwidth([5])).toBeNaN();
    expect([...kernelDensity([], [1], 1)]).toEqual([NaN]);
  });
});
