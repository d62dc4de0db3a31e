import { describe, expect, it } from 'vitest';
import { exponential, normal, pick, seeded, uniform, whole } from '#lib/demo/random.ts';

const draws = (seed: number, keys: number[], count: number): number[] => {
  const random = seeded(seed, ...keys);
  return Array.from({ length: count }, () => uniform(random));
};

describe('the random numbers of the demo', () => {
  it('repeat for the same seed and keys', () => {
    expect(draws(7070, [1, 2], 50)).toEqual(draws(7070, [1, 2], 50));
  });

  it.each([
    ['another seed', 7071, [1, 2]],
    ['a seed that differs above 32 bits', 7070 + 2 ** 32, [1, 2]],
    ['another key', 7070, [1, 3]],
    ['keys in another order', 7070, [2, 1]],
    ['a key more', 7070, [1, 2, 0]]
  ])('differ for %s', (_, seed, keys) => {
    const own = draws(7070, [1, 2], 20);
    expect(draws(seed, keys, 20).filter((value, index) => value === own[index])).toEqual([]);
  });

  it('go on from a copy of their state as from the state itself', () => {
    const random = seeded(5);
    uniform(random);
    const copy = structuredClone(random);
    expect(uniform(copy)).toBe(uniform(random));
  });

  // Chi-square of 100 bins on 99 degrees of freedom: 99.9 % quantile 148.2 (from memory).
  it('fill the unit interval evenly and stay below 1', () => {
    const bins = new Array<number>(100).fill(0);
    for (const value of draws(1, [], 100_000)) {
      const bin = Math.floor(value * 100);
      bins[bin] = (bins[bin] ?? NaN) + 1;
    }
    expect(bins).toHaveLength(100);
    const chiSquare = bins.reduce((sum, count) => sum + (count - 1000) ** 2 / 1000, 0);
    expect(chiSquare).toBeLessThan(148.2);
  });

  // Normal distribution: mean 0, deviation 1, 0.27 % beyond three deviations.
  it('follow the normal distribution where asked', () => {
    const random = seeded(2);
    const values = Array.from({ length: 100_000 }, () => normal(random));
    const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
    const variance = values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / values.length;
    expect(Math.abs(mean)).toBeLessThan(0.012);
    expect(Math.abs(variance - 1)).toBeLessThan(0.02);
    const beyond = values.filter((value) => Math.abs(value) > 3).length / values.length;
    expect(Math.abs(beyond - 0.0027)).toBeLessThan(0.0006);
  });

  it('have the mean asked for in the exponential distribution', () => {
    const random = seeded(3);
    const values = Array.from({ length: 50_000 }, () => exponential(random, 4));
    expect(Math.abs(values.reduce((sum, value) => sum + value, 0) / values.length - 4)).toBeLessThan(0.08);
  });

  it('pick whole numbers below the bound, and refuse an empty list', () => {
    const random = seeded(4);
    const met = new Set(Array.from({ length: 200 }, () => whole(random, 3)));
    expect([...met].sort()).toEqual([0, 1, 2]);
    expect(() => pick(random, [])).toThrow('need one entry or more');
  });
});
