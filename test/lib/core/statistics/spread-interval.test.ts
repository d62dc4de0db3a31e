import { describe, expect, it } from 'vitest';
import { gammaQuantile, normalQuantile } from '#lib/core/statistics/distributions.ts';
import { spreadInterval } from '#lib/core/statistics/spread-interval.ts';

/** Numbers between 0 and 1 from a seed: Park and Miller 1988, Communications of the ACM 31:1192. */
function uniforms(seed: number): () => number {
  let state = seed;
  return () => (state = (state * 48_271) % 2_147_483_647) / 2_147_483_647;
}

/** How many of 400 samples of 300 have the true spread within their interval. */
function covered(draw: (next: () => number) => number, truth: number): number {
  const next = uniforms(20_310_401);
  let hits = 0;
  for (let sample = 0; sample < 400; sample++) {
    const { lower, upper } = spreadInterval(Float64Array.from({ length: 300 }, () => draw(next)));
    if (lower <= truth && truth <= upper) hits++;
  }
  return hits;
}

describe('the interval of a standard deviation', () => {
  it('is near the chi-square one for values as a normal distribution has them', () => {
    const n = 4000;
    const values = Float64Array.from({ length: n }, (_none, i) => normalQuantile((i + 0.5) / n));
    const { standardDeviation: s, lower, upper } = spreadInterval(values);
    // Chi-square with n - 1 degrees of freedom is twice a gamma of half as many.
    const chiSquare = (p: number) => 2 * gammaQuantile(p, (n - 1) / 2);
    expect(lower).toBeCloseTo(s * Math.sqrt((n - 1) / chiSquare(0.975)), 3);
    expect(upper).toBeCloseTo(s * Math.sqrt((n - 1) / chiSquare(0.025)), 3);
  });

  it('holds the truth about as often as it says, with tails as light and heavier than normal', () => {
    // 99 % limits of 400 draws at 95 % are 368 and 391; heavy tails may fall short a little.
    const normal = covered((next) => normalQuantile(next()), 1);
    expect(normal).toBeGreaterThanOrEqual(365);
    expect(normal).toBeLessThanOrEqual(392);
    // Double exponential: variance 2, kurtosis 6, where the chi-square interval would hold about 78 %.
    const heavy = covered((next) => Math.log(next()) * (next() < 0.5 ? -1 : 1), Math.SQRT2);
    expect(heavy).toBeGreaterThanOrEqual(355);
  });

  it('scales with the values, leaves missing ones out and is not given for few or equal ones', () => {
    const values = Array.from({ length: 60 }, (_none, i) => Math.sin(i * 3.3) + (i === 7 ? 4 : 0));
    const [one, three] = [spreadInterval(values), spreadInterval([...values.map((x) => 3 * x + 9), NaN])];
    expect(three.standardDeviation).toBeCloseTo(3 * one.standardDeviation, 10);
    expect(three.lower).toBeCloseTo(3 * one.lower, 10);
    expect(three.upper).toBeCloseTo(3 * one.upper, 10);
    expect(spreadInterval(values.slice(0, 29)).lower).toBeNaN();
    expect(spreadInterval(new Float64Array(40).fill(2)).upper).toBeNaN();
  });
});
