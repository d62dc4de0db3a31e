import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { averageRanks } from '#lib/core/statistics/ranks.ts';
import { fitSeason } from '#lib/core/statistics/season.ts';
import {
  bartlett,
  brownForsythe,
  flignerKilleen,
  kruskalWallis,
  levene
} from '#lib/core/statistics/spread-tests.ts';
import { compareStratified, standardisedDifference } from '#lib/core/statistics/stratified.ts';
import { withinBetween } from '#lib/core/statistics/within-between.ts';
import { must } from '../../../reference/method.ts';

describe('a stratified comparison', () => {
  // Better at neither place, yet better in sum: constructed for this project.
  const strata = [
    { x1: 9, n1: 900, x2: 1, n2: 120 },
    { x1: 21, n1: 150, x2: 118, n2: 1000 }
  ];

  it('warns when crude and standardised rates point opposite ways', () => {
    expect(must(compareStratified(strata)).reversed).toBe(true);
    expect(must(compareStratified(strata.slice(0, 1))).reversed).toBe(false);
  });

  it('leaves strata out that only one side has, and says how much is common', () => {
    const found = must(compareStratified([...strata, { x1: 5, n1: 950, x2: 0, n2: 0 }]));
    expect(found.commonStrata).toBe(2);
    expect(found.overlap1).toBeCloseTo(1050 / 2000, 12);
    expect(found.overlap2).toBe(1);
    expect(found.standardised1).toBeCloseTo(must(compareStratified(strata)).standardised1, 14);
  });

  it('turns over when the sides change places', () => {
    const swapped = strata.map((s) => ({ x1: s.x2, n1: s.n2, x2: s.x1, n2: s.n1 }));
    const [forward, back] = [must(compareStratified(strata)), must(compareStratified(swapped))];
    expect(forward.oddsRatio * back.oddsRatio).toBeCloseTo(1, 12);
    expect(forward.pValue).toBeCloseTo(back.pValue, 12);
  });

  it('is not to be had without a common stratum', () => {
    const apart = [
      { x1: 1, n1: 9, x2: 0, n2: 0 },
      { x1: 0, n1: 0, x2: 3, n2: 8 }
    ];
    expect(compareStratified(apart)).toMatchObject({ estimable: false, reason: 'not-separable' });
  });

  it('compares means with the same weights', () => {
    const found = must(
      standardisedDifference([
        { n1: 30, mean1: 2, variance1: 4, n2: 10, mean2: 1, variance2: 4 },
        { n1: 10, mean1: 6, variance1: 4, n2: 50, mean2: 4, variance2: 4 },
        { n1: 1, mean1: 99, variance1: NaN, n2: 9, mean2: 1, variance2: 4 }
      ])
    );
    expect(found.difference).toBeCloseTo((40 * 1 + 60 * 2) / 100, 12);
    const variance = (40 ** 2 * (4 / 30 + 4 / 10) + 60 ** 2 * (4 / 10 + 4 / 50)) / 100 ** 2;
    expect(found.standardError).toBeCloseTo(Math.sqrt(variance), 12);
    expect(found.commonStrata).toBe(2);
  });
});

describe('ranks', () => {
  it('are shared by ties', () => {
    const { rank, ties } = averageRanks(Float64Array.of(5, 1, 5, 9, 5));
    expect([...rank]).toEqual([3, 1, 3, 5, 3]);
    expect(ties).toBe(24);
  });
});

describe('tests of spread', () => {
  const groups = fc.array(fc.array(fc.integer({ min: 0, max: 30 }), { minLength: 3, maxLength: 12 }), {
    minLength: 2,
    maxLength: 5
  });

  it('do not change when all values move and stretch together', () => {
    fc.assert(
      fc.property(groups, (sets) => {
        const moved = sets.map((set) => set.map((x) => 4 * x + 3));
        for (const test of [brownForsythe, levene, bartlett, flignerKilleen, kruskalWallis]) {
          const [before, after] = [test(sets), test(moved)];
          expect(after.estimable).toBe(before.estimable);
          if (before.estimable && after.estimable) expect(after.pValue).toBeCloseTo(before.pValue, 8);
        }
      }),
      { numRuns: 60 }
    );
  });

  it('see a spread three times as wide and no difference where there is none', () => {
    const base = Array.from({ length: 40 }, (_, i) => Math.sin(i * 7.1) * (1 + (i % 3)));
    const same = [base, base.map((x) => x + 5)];
    const wider = [base, base.map((x) => 3 * x)];
    for (const test of [brownForsythe, levene, bartlett, flignerKilleen]) {
      expect(must(test(same)).pValue).toBeGreaterThan(0.999);
      expect(must(test(wider)).pValue).toBeLessThan(1e-4);
    }
    expect(must(kruskalWallis(same)).pValue).toBeLessThan(1e-6);
  });

  it('need two groups and something that varies', () => {
    expect(brownForsythe([[1, 2, 3]])).toMatchObject({
      estimable: false,
      reason: 'too-few',
      have: 1,
      need: 2
    });
    expect(brownForsythe([[1], [2]])).toMatchObject({ estimable: false, reason: 'too-few' });
    expect(
      levene([
        [1, 1],
        [2, 2]
      ])
    ).toMatchObject({ estimable: false, reason: 'no-variation' });
    expect(
      bartlett([
        [1, 1],
        [2, 3]
      ])
    ).toMatchObject({ estimable: false, reason: 'no-variation' });
    expect(
      kruskalWallis([
        [1, 1],
        [1, 1]
      ])
    ).toMatchObject({ estimable: false, reason: 'no-variation' });
  });
});

describe('a season', () => {
  const months = Array.from({ length: 30 }, (_, i) => i + 1);
  const wave = (month: number): number =>
    2 * Math.cos((Math.PI * month) / 6) - 1.5 * Math.sin((Math.PI * month) / 6);

  it('is found exactly where there is no noise, at each level of its group', () => {
    const groups = months.map((m) => m % 2);
    const values = months.map((m) => (m % 2 === 0 ? 800 : 790) + wave(m));
    const fit = must(fitSeason(values, months, { groups }));
    expect(fit.cosine).toBeCloseTo(2, 10);
    expect(fit.sine).toBeCloseTo(-1.5, 10);
    expect(fit.levels[0]).toBeCloseTo(800, 9);
    expect(fit.levels[1]).toBeCloseTo(790, 9);
    expect(fit.amplitude).toBeCloseTo(2.5, 10);
    expect(wave(fit.peakMonth)).toBeCloseTo(2.5, 10);
    expect(fit.residualSd).toBeLessThan(1e-9);
  });

  it('passes over missing months and needs a year and a half', () => {
    const values = months.map((m) => (m > 20 ? NaN : wave(m)));
    const fit = must(fitSeason(values, months));
    expect(fit.months).toBe(20);
    expect(fit.residuals[25]).toBeNaN();
    expect(fitSeason(values.slice(0, 17), months)).toMatchObject({ estimable: false, have: 17, need: 18 });
  });
});

describe('spread within and between groups', () => {
  it('says no differences seen where group means lie closer than chance puts them', () => {
    const groups = [0, 0, 0, 1, 1, 1, 2, 2, 2];
    const fit = must(withinBetween(groups, [1, 5, 9, 2, 4, 9, 1, 6, 8]));
    expect(fit.between).toBe(0);
    expect(fit.rough).toBe(true);
    expect([...fit.effect]).toEqual([0, 0, 0]);
  });

  it('needs two groups, three values and something that varies', () => {
    expect(withinBetween([0, 0, 0], [1, 2, 3])).toMatchObject({
      estimable: false,
      reason: 'too-few',
      need: 2
    });
    expect(withinBetween([0, 1], [1, 2])).toMatchObject({ estimable: false, reason: 'too-few', need: 3 });
    expect(withinBetween([0, 0, 1, 1], [4, 4, 4, 4])).toMatchObject({
      estimable: false,
      reason: 'no-variation'
    });
  });
});
