import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fitCrossed, type CrossedFit } from '#lib/core/statistics/crossed/fit.ts';
import type { CrossedRecords } from '#lib/core/statistics/crossed/design.ts';
import { simulateCrossed } from '../../../../reference/crossed-generator.ts';
import { must } from '../../../../reference/method.ts';
import { denseCriterion, denseErrorCovariance } from './dense.ts';

interface Lists {
  readonly a: number[];
  readonly b: number[];
  readonly y: number[];
  readonly weights: number[];
}

function layout(seed: number, N: number, nT = 5, nM = 8): Lists {
  const made = simulateCrossed({
    seed,
    nT,
    nM,
    N,
    mu: 0.3,
    sdT: 0.5,
    sdM: 0.4,
    s0: 0.3,
    kg: 0,
    blocks: 1,
    pHome: 0,
    pGross: 0
  });
  const weights = Array.from(made.size, (size) => 1 / (1 + 5e7 / size ** 2));
  return { a: [...made.a], b: [...made.b], y: [...made.y], weights };
}

const lists = fc.integer({ min: 1, max: 1e6 }).map((seed) => layout(seed, 60));
const RUNS = { numRuns: 12 };

function expectSame(got: Float64Array, want: Float64Array, digits: number, factor = 1): void {
  expect(got.length).toBe(want.length);
  want.forEach((value, i) => {
    if (Number.isNaN(value)) expect(got[i]).toBeNaN();
    else expect(got[i]).toBeCloseTo(factor * value, digits);
  });
}

function expectSameFit(got: CrossedFit, want: CrossedFit): void {
  expect(got.criterion).toBeCloseTo(want.criterion, 6);
  expect(got.mean).toBeCloseTo(want.mean, 5);
  expect(got.sigma).toBeCloseTo(want.sigma, 5);
  for (const side of ['a', 'b'] as const) {
    expect(got[side].sd).toBeCloseTo(want[side].sd, 5);
    expectSame(got[side].effect, want[side].effect, 5);
    expectSame(got[side].contrastError, want[side].contrastError, 5);
    expectSame(got[side].errorCorrelation, want[side].errorCorrelation, 4);
  }
}

describe('crossed effects against whole matrices', () => {
  it('stand at the likelihood of the full covariance, which is lower nowhere near', () => {
    fc.assert(
      fc.property(lists, (records) => {
        const fit = must(fitCrossed(records));
        const at = (sdA: number, sdB: number, sigma: number): number =>
          denseCriterion({ ...records, sdA, sdB, sigma });
        const found = at(fit.a.sd, fit.b.sd, fit.sigma);
        expect(fit.criterion).toBeCloseTo(found, 7);
        for (const [da, db, ds] of [
          [0.02, 0, 0],
          [0, 0.02, 0],
          [0, 0, 0.02]
        ] as const) {
          expect(at(fit.a.sd + da, fit.b.sd + db, fit.sigma + ds)).toBeGreaterThan(found);
          expect(at(Math.abs(fit.a.sd - da), Math.abs(fit.b.sd - db), fit.sigma - ds)).toBeGreaterThan(
            found - 1e-9
          );
        }
      }),
      RUNS
    );
  });

  it.each([
    [5, 8],
    [9, 4]
  ])('have the errors of the whole inverse, %d levels by %d', (nT, nM) => {
    const records = layout(7, 90, nT, nM);
    const fit = must(fitCrossed(records));
    const inverse = denseErrorCovariance(
      { ...records, sdA: fit.a.sd, sdB: fit.b.sd, sigma: fit.sigma },
      nT,
      nM
    );
    const at = (i: number, j: number): number => inverse[i]?.[j] ?? NaN;
    expect(fit.meanError).toBeCloseTo(Math.sqrt(at(0, 0)), 9);
    const blocks = [
      { own: fit.a, start: 1, count: nT, other: 1 + nT, others: nM, code: records.a, otherCode: records.b },
      { own: fit.b, start: 1 + nT, count: nM, other: 1, others: nT, code: records.b, otherCode: records.a }
    ];
    for (const { own, start, count, other, others, code, otherCode } of blocks) {
      const levels = Array.from({ length: count }, (_, i) => i);
      const contrast = (i: number): number[] => levels.map((j) => (i === j ? 1 : 0) - 1 / count);
      const form = (x: number[], y: number[], x0: number, y0: number): number =>
        x.reduce(
          (sum, xi, i) => sum + y.reduce((inner, yj, j) => inner + xi * yj * at(x0 + i, y0 + j), 0),
          0
        );
      for (const i of levels) {
        expect(own.standardError[i]).toBeCloseTo(Math.sqrt(at(start + i, start + i)), 9);
        expect(own.contrastError[i]).toBeCloseTo(Math.sqrt(form(contrast(i), contrast(i), start, start)), 9);
        const met = new Array<number>(others).fill(0);
        let total = 0;
        code.forEach((level, k) => {
          if (level !== i) return;
          const weight = records.weights[k] ?? NaN;
          met[otherCode[k] ?? NaN] = (met[otherCode[k] ?? NaN] ?? NaN) + weight;
          total += weight;
        });
        const shares = met.map((weight) => weight / total);
        const covariance = form([1], shares, start + i, other);
        const correlation =
          covariance / Math.sqrt(at(start + i, start + i) * form(shares, shares, other, other));
        expect(own.errorCorrelation[i]).toBeCloseTo(correlation, 8);
      }
    }
  });
});

describe('crossed effects do not depend on', () => {
  it('a constant added to all values, but for the mean', () => {
    fc.assert(
      fc.property(lists, fc.double({ min: -1e4, max: 1e4, noNaN: true }), (records, shift) => {
        const fit = must(fitCrossed(records));
        const moved = must(fitCrossed({ ...records, y: records.y.map((value) => value + shift) }));
        expectSameFit({ ...moved, mean: moved.mean - shift }, fit);
      }),
      RUNS
    );
  });

  it('the numbering of levels, the order of records or which factor comes first', () => {
    fc.assert(
      fc.property(lists, (records) => {
        const fit = must(fitCrossed(records));
        const relabel = (codes: number[], levels: number): number[] => codes.map((code) => levels - 1 - code);
        const relabelled = must(fitCrossed({ ...records, a: relabel(records.a, 5) }));
        expect(relabelled.criterion).toBeCloseTo(fit.criterion, 7);
        expectSame(relabelled.a.effect.slice().reverse(), fit.a.effect, 6);
        const backwards = must(
          fitCrossed({
            a: records.a.slice().reverse(),
            b: records.b.slice().reverse(),
            y: records.y.slice().reverse(),
            weights: records.weights.slice().reverse()
          })
        );
        expectSameFit(backwards, fit);
        const swapped = must(fitCrossed({ ...records, a: records.b, b: records.a }));
        expectSameFit({ ...swapped, a: swapped.b, b: swapped.a }, fit);
      }),
      RUNS
    );
  });

  it('the unit of the values: all scales with it, the criterion by (n - 1) ln c^2', () => {
    fc.assert(
      fc.property(lists, fc.double({ min: 0.01, max: 100, noNaN: true }), (records, c) => {
        const fit = must(fitCrossed(records));
        const scaled = must(fitCrossed({ ...records, y: records.y.map((value) => c * value) }));
        expect(scaled.criterion - fit.criterion).toBeCloseTo(59 * Math.log(c * c), 6);
        expect(scaled.sigma / c).toBeCloseTo(fit.sigma, 5);
        expect(scaled.b.sd / c).toBeCloseTo(fit.b.sd, 5);
      }),
      RUNS
    );
  });

  it('the scale of the weights, but for sigma', () => {
    fc.assert(
      fc.property(lists, ({ a, b, y }) => {
        const fit = must(fitCrossed({ a, b, y }));
        const heavy = must(fitCrossed({ a, b, y, weights: y.map(() => 2) }));
        expect(heavy.criterion).toBeCloseTo(fit.criterion, 7);
        expect(heavy.sigma ** 2).toBeCloseTo(2 * fit.sigma ** 2, 5);
        expect(heavy.a.sd).toBeCloseTo(fit.a.sd, 5);
        expect(heavy.mean).toBeCloseTo(fit.mean, 6);
      }),
      RUNS
    );
  });
});

describe('at the edges of what can be fitted', () => {
  const fitOf = (a: number[], b: number[], y: number[]): ReturnType<typeof fitCrossed> =>
    fitCrossed({ a, b, y });
  const values = [1.2, 0.7, 1.9, 1.1, 0.4, 1.6];

  it('one level of each factor leaves a mean and its spread', () => {
    const fit = must(fitOf([0, 0, 0, 0, 0, 0], [0, 0, 0, 0, 0, 0], values));
    expect(fit.a.sd).toBe(0);
    expect(fit.b.sd).toBe(0);
    expect(fit.mean).toBeCloseTo(1.15, 12);
    expect(fit.a.separable[0]).toBe(0);
  });

  it('one level of one factor leaves the other to vary alone', () => {
    const fit = must(fitOf([0, 0, 0, 0, 0, 0], [0, 0, 1, 1, 2, 2], [1, 1.1, 5, 5.1, 9, 9.1]));
    expect(fit.a.sd).toBe(0);
    expect(fit.b.sd).toBeGreaterThan(3);
    expect(fit.b.levels).toBe(3);
    expect(fit.b.fewLevels).toBe(true);
  });

  it('one record, no record and records without a level are too few', () => {
    expect(fitOf([0], [0], [1])).toEqual({ estimable: false, reason: 'too-few', have: 1, need: 3 });
    expect(fitOf([], [], [])).toMatchObject({ reason: 'too-few', have: 0 });
    expect(fitOf([-1, 0, 0, 1], [0, -1, 0, 1], [1, 2, NaN, 3])).toMatchObject({ reason: 'too-few', have: 1 });
  });

  it('equal values, and values that the levels explain to the last digit, have no variation left', () => {
    expect(fitOf([0, 0, 1, 1], [0, 1, 0, 1], [0.1, 0.1, 0.1, 0.1])).toMatchObject({ reason: 'no-variation' });
    const exact = fitOf([0, 0, 1, 1, 2, 2], [0, 1, 0, 1, 0, 1], [1, 2, 4, 5, 9, 10]);
    expect(exact).toMatchObject({ estimable: false, reason: 'no-variation' });
  });

  it('factors that split the records alike cannot be told apart', () => {
    expect(fitOf([0, 0, 1, 1, 2, 2], [4, 4, 0, 0, 7, 7], values)).toMatchObject({ reason: 'not-separable' });
  });

  it('levels that never occur are missing, not 0', () => {
    const { a, b, y } = layout(3, 60);
    const fit = must(fitCrossed({ a: a.map((code) => 2 * code), b, y }, { levelsA: 12, levelsB: 9 }));
    expect(fit.a.effect.length).toBe(12);
    expect(fit.a.effect[1]).toBeNaN();
    expect(fit.a.component[1]).toBe(-1);
    expect(fit.b.effect[8]).toBeNaN();
    expect(fit.a.levels).toBe(5);
  });

  it('two groups that share no level are counted and told apart', () => {
    const near = layout(11, 60);
    const far = layout(12, 60);
    const records: CrossedRecords = {
      a: [...near.a, ...far.a.map((code) => code + 5)],
      b: [...near.b, ...far.b.map((code) => code + 8)],
      y: [...near.y, ...far.y]
    };
    const fit = must(fitCrossed(records));
    expect(fit.components).toBe(2);
    expect(new Set(fit.a.component.slice(0, 5)).size).toBe(1);
    expect(fit.a.component[0]).not.toBe(fit.a.component[7]);
    expect(fit.a.component[0]).toBe(fit.b.component[0]);
  });

  it('a level that always meets one other level alone is not told from it', () => {
    const { a, b, y } = layout(5, 200, 6, 6);
    // Level 6 of a and level 6 of b meet only each other, forty times, far off.
    const alone = Array.from({ length: 40 }, (_, k) => 2 + 0.1 * Math.sin(k));
    const fit = must(
      fitCrossed({ a: [...a, ...alone.map(() => 6)], b: [...b, ...alone.map(() => 6)], y: [...y, ...alone] })
    );
    expect(fit.a.errorCorrelation[6]).toBeLessThan(-0.5);
    expect(fit.a.separable[6]).toBe(0);
    expect(fit.a.separable[0]).toBe(1);
    // The offset is split as the variances are: by assumption, not by evidence.
    const split = (fit.a.effect[6] ?? NaN) / (fit.b.effect[6] ?? NaN);
    expect(split).toBeCloseTo((fit.a.sd / fit.b.sd) ** 2, 6);
  });

  it('stops when asked', () => {
    let evaluations = 0;
    const stopped = fitCrossed(layout(1, 60), {
      onProgress: (count) => (evaluations = count),
      shouldStop: () => evaluations > 5
    });
    expect(stopped).toMatchObject({ estimable: false, reason: 'stopped' });
    expect(evaluations).toBeLessThan(25);
  });

  it('refuses lists of unlike length', () => {
    expect(() => fitOf([0], [0, 1], [1, 2])).toThrow(/records: 1, 2 and 2/);
  });
});
