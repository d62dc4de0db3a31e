import { describe, expect, it } from 'vitest';
import { fitCrossed } from '#lib/core/statistics/crossed/fit.ts';
import { likelyOffsets } from '#lib/core/statistics/crossed/likely-offsets.ts';
import { adjustedPeriodMeans } from '#lib/core/statistics/crossed/period-means.ts';
import { fitCrossedRobust } from '#lib/core/statistics/crossed/robust.ts';
import { fitVarianceFunction } from '#lib/core/statistics/crossed/variance-function.ts';
import { simulateCrossed, type CrossedRecipe } from '../../../../reference/crossed-generator.ts';
import { must } from '../../../../reference/method.ts';

const RECIPE: CrossedRecipe = {
  seed: 99,
  nT: 20,
  nM: 30,
  N: 2000,
  mu: 0.1,
  sdT: 0.35,
  sdM: 0.12,
  s0: 0.4,
  kg: 60,
  blocks: 5,
  pHome: 0.5,
  pGross: 0
};

const rootMeanSquare = (got: Float64Array, want: Float64Array): number => {
  const centre = (x: Float64Array): number => x.reduce((sum, v) => sum + v, 0) / x.length;
  const shift = centre(got) - centre(want);
  return Math.sqrt(got.reduce((sum, v, i) => sum + (v - shift - (want[i] ?? NaN)) ** 2, 0) / got.length);
};

describe('the robust fit', () => {
  it('hardly moves when one record in thirty is grossly wrong, where the plain fit does', () => {
    const gross = simulateCrossed({ ...RECIPE, kg: 0, pGross: 0.03 });
    const robust = must(fitCrossedRobust(gross));
    const plain = must(fitCrossed(gross));
    const caught = gross.gross.reduce(
      (n, flag, k) => (flag === 1 && robust.robustWeight[k] === 0 ? n + 1 : n),
      0
    );
    expect(caught).toBe(gross.gross.reduce((n, flag) => n + flag, 0));
    expect(robust.settled).toBe(true);
    expect(robust.sigma).toBeLessThan(0.44);
    expect(plain.sigma).toBeGreaterThan(1);
    expect(rootMeanSquare(robust.a.effect, gross.trueA)).toBeLessThan(
      0.8 * rootMeanSquare(plain.a.effect, gross.trueA)
    );
  });

  it('rests where its own weights lead back to it', () => {
    const gross = simulateCrossed({ ...RECIPE, kg: 0, pGross: 0.03 });
    const robust = must(fitCrossedRobust(gross));
    const again = must(fitCrossed({ a: gross.a, b: gross.b, y: gross.y, weights: robust.robustWeight }));
    expect(again.n).toBe(robust.n);
    expect(again.a.sd).toBeCloseTo(robust.a.sd, 5);
    robust.robustWeight.forEach((weight, k) => {
      const far = Math.abs(robust.residual[k] ?? NaN) / robust.scale;
      expect(weight).toBeCloseTo(far > 4 ? 0 : Math.min(1, 2 / far), 5);
    });
  });

  it('counts kept and dropped records of each level', () => {
    const gross = simulateCrossed({ ...RECIPE, kg: 0, pGross: 0.03 });
    const robust = must(fitCrossedRobust(gross));
    const total = (counts: Int32Array): number => counts.reduce((sum, count) => sum + count, 0);
    expect(total(robust.droppedA)).toBe(robust.dropped);
    expect(total(robust.droppedB)).toBe(robust.dropped);
    expect(total(robust.a.records) + robust.dropped).toBe(RECIPE.N);
    expect(robust.n + robust.dropped).toBe(RECIPE.N);
  });

  it('gives a level with nothing kept the effect 0, and says it cannot be told', () => {
    const made = simulateCrossed({ ...RECIPE, N: 600 });
    const lost = made.y.map((value, k) => (made.a[k] === 3 ? value + (k % 2 === 0 ? 80 : -80) : value));
    const robust = must(fitCrossedRobust({ a: made.a, b: made.b, y: lost }));
    expect(robust.a.records[3]).toBe(0);
    expect(robust.droppedA[3]).toBeGreaterThan(10);
    expect(robust.a.effect[3]).toBe(0);
    expect(robust.a.separable[3]).toBe(0);
    expect(robust.a.standardError[3]).toBeCloseTo(robust.a.sd, 6);
    expect(robust.a.component[3]).toBe(-1);
  });

  it('marks records it cannot use as missing', () => {
    const made = simulateCrossed({ ...RECIPE, N: 300 });
    made.y[7] = NaN;
    const robust = must(fitCrossedRobust(made));
    expect(robust.robustWeight[7]).toBeNaN();
    expect(robust.residual[7]).toBeNaN();
  });

  it('reports its progress and stops when asked', () => {
    const made = simulateCrossed(RECIPE);
    const seen: number[] = [];
    must(fitCrossedRobust(made, { onProgress: (evaluations) => seen.push(evaluations) }));
    expect(seen).toEqual(Array.from(seen, (_, i) => i + 1));
    expect(fitCrossedRobust(made, { shouldStop: () => true })).toMatchObject({ reason: 'stopped' });
  });
});

describe('the variance function', () => {
  it('estimated the cheap way is near the exact one and near the truth', () => {
    const made = simulateCrossed({ ...RECIPE, N: 20_000 });
    const truth = ((100 * 60) / 0.4) ** 2;
    const cheap = must(fitCrossedRobust(made, { size: made.size }));
    const exact = must(fitVarianceFunction(made, made.size));
    expect(cheap.phi / exact.phi).toBeGreaterThan(0.85);
    expect(cheap.phi / exact.phi).toBeLessThan(1.18);
    expect(exact.phi / truth).toBeGreaterThan(0.85);
    expect(exact.phi / truth).toBeLessThan(1.18);
    expect(cheap.a.sd).toBeCloseTo(exact.a.sd, 2);
  });

  it('exact, lies lower than any other phi nearby', () => {
    const made = simulateCrossed(RECIPE);
    const exact = must(fitVarianceFunction(made, made.size));
    const at = (phi: number): number => {
      const weights = made.size.map((size) => 1 / (1 + phi / size ** 2));
      return must(fitCrossed({ a: made.a, b: made.b, y: made.y, weights })).criterion;
    };
    expect(at(exact.phi)).toBeCloseTo(exact.criterion, 5);
    expect(at(1.1 * exact.phi)).toBeGreaterThan(exact.criterion);
    expect(at(0.9 * exact.phi)).toBeGreaterThan(exact.criterion);
  });

  it('weighting makes effects more certain', () => {
    const made = simulateCrossed(RECIPE);
    const [plain, weighted] = [must(fitCrossed(made)), must(fitCrossedRobust(made, { size: made.size }))];
    const mean = (x: Float64Array): number => x.reduce((sum, v) => sum + v, 0) / x.length;
    expect(mean(weighted.a.contrastError)).toBeLessThan(0.9 * mean(plain.a.contrastError));
  });

  it('is 0, or close to it, where small sizes are no noisier', () => {
    const made = simulateCrossed({ ...RECIPE, kg: 0 });
    const exact = must(fitVarianceFunction(made, made.size));
    const noiseAtTypicalSize = exact.phi / 9000 ** 2;
    expect(noiseAtTypicalSize).toBeLessThan(0.1);
  });

  it('refuses a size of 0', () => {
    expect(() => fitCrossedRobust({ a: [0, 0, 1], b: [0, 1, 1], y: [1, 2, 4] }, { size: [5, 0, 5] })).toThrow(
      /size: 0 at record 1/
    );
  });
});

describe('levels likely beyond a tolerance', () => {
  const made = simulateCrossed({ ...RECIPE, kg: 0 });
  const fit = must(fitCrossed(made));

  it('come likeliest first, with few named wrongly', () => {
    const named = likelyOffsets(fit.a, 0.3);
    const chances = named.map(({ chance }) => chance);
    expect(chances).toEqual([...chances].sort((p, q) => q - p));
    expect(chances.reduce((sum, chance) => sum + 1 - chance, 0) / chances.length).toBeLessThanOrEqual(0.1);
    expect(named.length).toBeGreaterThan(2);
    const large = named.filter(({ level }) => Math.abs(made.trueA[level] ?? NaN) > 0.2);
    expect(large.length / named.length).toBeGreaterThan(0.8);
  });

  it('are none for a tolerance nothing reaches', () => {
    expect(likelyOffsets(fit.a, 5)).toEqual([]);
  });
});

describe('period means with the other factor taken off', () => {
  const fit = must(fitCrossed(simulateCrossed({ ...RECIPE, N: 500 })));
  const b0 = fit.b.effect[0] ?? NaN;
  const records = { a: [0, 0, 0, 1, 0], b: [0, 0, 0, 0, 0], y: [3, 4, 9, 7, NaN] };
  const series = adjustedPeriodMeans(records, [0, 0, 2, 1, 1], 3, fit, { wobble: 0.01 });

  it('are weighted, placed by level and period, and missing where nothing is', () => {
    expect(series.mean[0]).toBeCloseTo(3.5 - fit.mean - b0, 12);
    expect(series.mean[1]).toBeNaN();
    expect(series.mean[2]).toBeCloseTo(9 - fit.mean - b0, 12);
    expect(series.mean[3 + 1]).toBeCloseTo(7 - fit.mean - b0, 12);
    expect([...series.records.slice(0, 6)]).toEqual([2, 0, 1, 0, 1, 0]);
  });

  it('carry the error of values, of the effects taken off and of the wobble', () => {
    const taken = (fit.b.standardError[0] ?? NaN) ** 2;
    expect(series.variance[0]).toBeCloseTo(fit.sigma ** 2 / 2 + taken + 0.01, 12);
    expect(series.variance[1]).toBeNaN();
  });
});
