import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cusum, cusumOnset } from '#lib/core/statistics/charts/cusum.ts';
import { ewma, ewmaSteadyDeviation, ewmaUnequal } from '#lib/core/statistics/charts/ewma.ts';
import {
  gapChart,
  gapLimits,
  gapTransform,
  gapTransformMoments,
  openGapProbability,
  timeGapChart,
  timeGapLimits
} from '#lib/core/statistics/charts/gaps.ts';
import { individualsChart } from '#lib/core/statistics/charts/individuals.ts';
import { must } from '../../../../reference/method.ts';

const series = fc.array(fc.double({ min: -50, max: 50, noNaN: true }), { minLength: 3, maxLength: 40 });

describe('an individuals chart', () => {
  it('leaves ranges across a gap out', () => {
    const chart = must(individualsChart([1, 2, NaN, 9, 12]));
    expect([...chart.movingRanges]).toEqual([NaN, 1, NaN, NaN, 3]);
    expect(chart.meanMovingRange).toBe(2);
    expect(chart.centre).toBe(6);
  });

  it('needs two neighbours that differ', () => {
    expect(individualsChart([1, NaN, 2])).toMatchObject({ estimable: false, reason: 'too-few' });
    expect(individualsChart([4, 4, 4])).toMatchObject({ estimable: false, reason: 'no-variation' });
  });

  it('holds later values against a frozen baseline', () => {
    const chart = must(individualsChart([1, 2, 1, 2, 1, 40], { baseline: [0, 5] }));
    expect(chart.signals).toEqual([5]);
    expect(chart.movingRangeSignals).toEqual([5]);
  });
});

describe('an exponentially weighted average', () => {
  it('of weight 1 is the individuals chart', () => {
    fc.assert(
      fc.property(series, (xs) => {
        const chart = ewma(xs, 4, { centre: 1, weight: 1, limit: 3 });
        chart.average.forEach((average, t) => expect(average).toBeCloseTo(xs[t] ?? NaN, 10));
        chart.upper.forEach((upper) => expect(upper).toBeCloseTo(13, 12));
        const outside = xs.map((x, t) => ({ x, t })).filter(({ x }) => Math.abs(x - 1) > 12 + 1e-9);
        expect(chart.signals).toEqual(outside.map(({ t }) => t));
      })
    );
  });

  it('has the closed-form limits where all variances are equal', () => {
    fc.assert(
      fc.property(series, fc.double({ min: 0.05, max: 1, noNaN: true }), (xs, weight) => {
        const variances = xs.map(() => 9);
        const chart = ewmaUnequal(xs, variances, { centre: 0, weight, limit: 2.5 });
        chart.upper.forEach((upper, t) => {
          const settled = ewmaSteadyDeviation(3, weight);
          expect(upper).toBeCloseTo(2.5 * settled * Math.sqrt(1 - (1 - weight) ** (2 * t + 2)), 9);
        });
      })
    );
  });

  it('keeps its state over missing values and starts afresh after more than three', () => {
    const options = { centre: 0, weight: 0.2, limit: 3 };
    const short = ewma([5, NaN, NaN, NaN, 1], 1, options);
    expect([...short.average.slice(0, 4)]).toEqual([1, 1, 1, 1]);
    expect(short.average[4]).toBeCloseTo(1, 12);
    const long = ewma([5, NaN, NaN, NaN, NaN, 1], 1, options);
    expect(long.average[4]).toBe(0);
    expect(long.zScore[4]).toBeNaN();
    expect(long.average[5]).toBeCloseTo(0.2, 12);
    expect(long.standardDeviation[5]).toBeCloseTo(0.2, 12);
  });

  it('never signals at a missing value', () => {
    const chart = ewma([100, NaN, 100], 1, { centre: 0, weight: 0.2, limit: 3 });
    expect(chart.signals).toEqual([0, 2]);
  });

  it('widens by the error of an estimated centre, in the end by all of it', () => {
    const options = { centre: 0, weight: 0.3, limit: 1 };
    const known = ewma(new Array<number>(60).fill(0), 2, options);
    const estimated = ewma(new Array<number>(60).fill(0), 2, { ...options, centreVariance: 4 / 12 });
    expect(estimated.standardDeviation[0]).toBeCloseTo(Math.sqrt(0.09 * 4 + (0.09 * 4) / 12), 12);
    expect((estimated.standardDeviation[59] ?? NaN) ** 2).toBeCloseTo(
      (known.standardDeviation[59] ?? NaN) ** 2 + 4 / 12,
      8
    );
  });

  it('refuses a weight that is none', () => {
    expect(() => ewma([1], 1, { centre: 0, weight: 0, limit: 3 })).toThrow(/weight: 0/);
  });
});

describe('a cumulative sum', () => {
  it('mirrors when values and target change sign', () => {
    fc.assert(
      fc.property(series, (xs) => {
        const chart = cusum(xs, { target: 2, slack: 1, limit: 5 });
        const mirror = cusum(
          xs.map((x) => -x),
          { target: -2, slack: 1, limit: 5 }
        );
        chart.high.forEach((sum, t) => expect(sum).toBeCloseTo(mirror.low[t] ?? NaN, 10));
        expect([...chart.highRun]).toEqual([...mirror.lowRun]);
      })
    );
  });

  it('stands still at a missing value and finds the onset of what it signals', () => {
    const chart = cusum([0, 0, 2, NaN, 2, 2], { target: 0, slack: 0.5, limit: 4 });
    expect([...chart.high]).toEqual([0, 0, 1.5, 1.5, 3, 4.5]);
    expect([...chart.highRun]).toEqual([0, 0, 1, 1, 2, 3]);
    expect(chart.signals).toEqual([5]);
    expect(cusumOnset(chart, 5)).toBe(2);
  });
});

describe('gaps between rare events', () => {
  it('have geometric limits that reach their share and no less', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: 900 }), { minLength: 1, maxLength: 30 }), (gaps) => {
        const chart = must(gapChart(gaps));
        const reached = (k: number): number => 1 - (1 - chart.probability) ** (k + 1);
        for (const [limit, share] of [
          [chart.lower, 0.00135],
          [chart.centre, 0.5],
          [chart.upper, 0.99865]
        ]) {
          expect(reached(limit ?? NaN)).toBeGreaterThanOrEqual((share ?? NaN) - 1e-9);
          if ((limit ?? 0) > 0) expect(reached((limit ?? NaN) - 1)).toBeLessThan((share ?? NaN) + 1e-9);
        }
      })
    );
  });

  it('count a time of nothing as half a unit', () => {
    expect(gapTransform(0)).toBe(gapTransform(0.5));
    expect(gapTransform(2 ** 3.6)).toBeCloseTo(2, 12);
  });

  it('tell a short time from a long one', () => {
    const times = [...Array.from({ length: 20 }, (_, i) => 400 + 10 * (i % 5)), 0.001, 9000];
    const chart = must(timeGapChart(times));
    expect(chart.short).toEqual([20]);
    expect(chart.long).toEqual([21]);
  });

  it('say how likely an open gap is', () => {
    expect(must(openGapProbability(30, 10)).probability).toBeCloseTo(Math.exp(-3), 14);
    expect(openGapProbability(30, 0)).toMatchObject({ estimable: false });
    expect(gapChart([NaN])).toMatchObject({ estimable: false, reason: 'too-few' });
  });
});

describe('limits of gaps at a pace known beforehand', () => {
  it('are those of the chart whose own mean gap is that pace', () => {
    const chart = must(gapChart([10, 400, 90, 220]));
    expect(gapLimits(180)).toEqual({
      mean: chart.mean,
      probability: chart.probability,
      centre: chart.centre,
      lower: chart.lower,
      upper: chart.upper
    });
  });

  it('cut off the exponential law at its shares', () => {
    const { lower, centre, upper } = timeGapLimits(12);
    expect(Math.exp(-lower / 12)).toBeCloseTo(0.99865, 12);
    expect(Math.exp(-centre / 12)).toBeCloseTo(0.5, 12);
    expect(Math.exp(-upper / 12)).toBeCloseTo(0.00135, 12);
  });

  it('have on the transformed scale the mean and spread that numeric integration gives', () => {
    const average = 40;
    const steps = 400_000;
    let first = 0;
    let second = 0;
    for (let i = 0; i < steps; i++) {
      const time = -average * Math.log1p(-(i + 0.5) / steps);
      first += time ** (1 / 3.6) / steps;
      second += time ** (2 / 3.6) / steps;
    }
    const { mean, sd } = gapTransformMoments(average);
    expect(mean).toBeCloseTo(first, 5);
    expect(sd).toBeCloseTo(Math.sqrt(second - first ** 2), 4);
  });

  it.each([0, -1, NaN])('need a mean gap of more than 0, not %s', (average) => {
    expect(() => gapLimits(average)).toThrow(RangeError);
    expect(() => timeGapLimits(average)).toThrow(RangeError);
    expect(() => gapTransformMoments(average)).toThrow(RangeError);
  });
});
