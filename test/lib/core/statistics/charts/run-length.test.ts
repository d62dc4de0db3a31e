import { describe, expect, it } from 'vitest';
import {
  cusumLimitFor,
  cusumRunLength,
  ewmaLimitFor,
  ewmaRunLength,
  runLengthForBudget,
  siegmundRunLength
} from '#lib/core/statistics/charts/run-length.ts';
import { periodWobble } from '#lib/core/statistics/charts/period-wobble.ts';
import { watchAlarms } from '#lib/core/statistics/charts/watch.ts';
import { normalTwoSided } from '#lib/core/statistics/distributions.ts';
import { must } from '../../../../reference/method.ts';

describe('run lengths', () => {
  it('of weight 1 are those of single values against their limits', () => {
    // 370.4 for 3 sigma: NIST/SEMATECH e-Handbook 6.3.2.
    expect(ewmaRunLength(1, 3)).toBeCloseTo(1 / normalTwoSided(3), 3);
  });

  // Computed for this project with R spc 0.6.7.
  it.each([
    [370.4, 2.702, 2.859, 2.925, 4.775],
    [1000, 3.059, 3.187, 3.238, 5.757],
    [10_000, 3.749, 3.834, 3.866, 8.053]
  ])('of %d periods have their limits', (runLength, l1, l2, l3, h) => {
    expect(Math.abs(ewmaLimitFor(0.1, runLength) - l1)).toBeLessThan(6e-4);
    expect(Math.abs(ewmaLimitFor(0.2, runLength) - l2)).toBeLessThan(6e-4);
    expect(Math.abs(ewmaLimitFor(0.3, runLength) - l3)).toBeLessThan(6e-4);
    expect(Math.abs(cusumLimitFor(0.5, runLength) - h)).toBeLessThan(6e-4);
  });

  it('come back from the limit they ask for', () => {
    expect(ewmaRunLength(0.25, ewmaLimitFor(0.25, 800))).toBeCloseTo(800, 3);
    expect(cusumRunLength(0.4, cusumLimitFor(0.4, 800))).toBeCloseTo(800, 3);
  });

  it('shorten with a shift, to either side alike', () => {
    expect(ewmaRunLength(0.2, 3, 1)).toBeLessThan(ewmaRunLength(0.2, 3) / 20);
    expect(cusumRunLength(0.5, 5, -1)).toBeCloseTo(cusumRunLength(0.5, 5, 1), 8);
  });

  it('have a closed form that is near, and whole where the drift vanishes', () => {
    expect(siegmundRunLength(0.5, 4, 0.5)).toBeCloseTo(5.166 ** 2, 9);
    expect(siegmundRunLength(0.5, 4, 0.5 + 1e-6)).toBeCloseTo(5.166 ** 2, 3);
  });

  it('follow from the false alarms a year one accepts', () => {
    expect(runLengthForBudget(500, 12, 6)).toBe(1000);
    expect(() => runLengthForBudget(500, 12, 0)).toThrow(/false alarms: 0/);
    expect(() => ewmaLimitFor(0.2, 1)).toThrow(/run length: 1/);
  });
});

describe('the wobble from period to period', () => {
  it('is what differences show beyond the counts, over all units', () => {
    const series = [
      { means: [1, 3, NaN, 2, 2], counts: [10, 10, 0, 5, 20] },
      { means: [0, -2], counts: [4, 4] }
    ];
    const found = must(periodWobble(series, 2));
    const excess = [4 - 2 * 0.2, 0 - 2 * 0.25, 4 - 2 * 0.5];
    expect(found.pairs).toBe(3);
    expect(found.variance).toBeCloseTo(excess.reduce((sum, x) => sum + x, 0) / 6, 12);
  });

  it('is 0 where counts explain all, and unknown without neighbours', () => {
    expect(must(periodWobble([{ means: [1, 1.1], counts: [2, 2] }], 5)).variance).toBe(0);
    expect(periodWobble([{ means: [1, NaN, 2], counts: [1, 0, 1] }], 5)).toMatchObject({ estimable: false });
  });
});

describe('watching many series', () => {
  it('alarms each once, and its leaving keeps the threshold for the rest', () => {
    const quiet = new Array<number>(98).fill(0.3);
    // 3.2 alone among a hundred does not pass; beside two strong ones that stay it would.
    const months = [
      [6, 6, ...quiet],
      [6, 6, 3.2, ...quiet.slice(1)]
    ];
    expect([...watchAlarms(months, 0.1).slice(0, 3)]).toEqual([0, 0, -1]);
    const together = [[6, 6, 3.2, ...quiet.slice(1)]];
    expect([...watchAlarms(together, 0.1).slice(0, 3)]).toEqual([0, 0, 0]);
  });

  it('leaves those already alarmed and those without a value alone', () => {
    expect([...watchAlarms([[9, NaN, 9]], 0.1, new Set([0]))]).toEqual([-1, -1, 0]);
  });
});
