import { describe, expect, it } from 'vitest';
import { differenceNewton } from '#lib/core/statistics/minimise/difference-newton.ts';
import { nelderMead } from '#lib/core/statistics/minimise/nelder-mead.ts';
import { minimiseScales } from '#lib/core/statistics/minimise/scales.ts';
import { solveLinear } from '#lib/core/statistics/linear-solve.ts';
import { integrate } from '#lib/core/statistics/quadrature.ts';

// Rosenbrock 1960, Computer J 3:175: a bent valley with its minimum 0 at (1, 1).
const valley = ([x = NaN, y = NaN]: readonly number[]): number => 100 * (y - x * x) ** 2 + (1 - x) ** 2;

describe('the simplex search', () => {
  const options = { step: 0.5, tolerance: 1e-12, mostEvaluations: 2000 };

  it('finds the end of a bent valley', () => {
    const found = nelderMead(valley, [-1.2, 1], options);
    expect(found.converged).toBe(true);
    expect(found.point[0]).toBeCloseTo(1, 5);
    expect(found.point[1]).toBeCloseTo(1, 5);
  });

  it('stops when asked, reports as it goes, and treats NaN as a wall', () => {
    const seen: number[] = [];
    const found = nelderMead(valley, [-1.2, 1], {
      ...options,
      onProgress: (evaluations) => seen.push(evaluations),
      shouldStop: () => seen.length >= 10
    });
    expect(found.converged).toBe(false);
    expect(found.evaluations).toBeLessThan(14);
    expect(seen.slice(0, 3)).toEqual([1, 2, 3]);
    const walled = nelderMead(([x = NaN]) => (x < 2 ? NaN : x), [3], options);
    expect(walled.point[0]).toBeCloseTo(2, 6);
  });
});

describe('the Newton search', () => {
  const options = { spacing: 0.02, lowest: -6, highest: 9, polish: true };
  const bowl = ([x = NaN, y = NaN]: readonly number[]): number =>
    Math.cosh(x - 1) + Math.exp(y) - 2 * y + 0.3 * (x - 1) * (y - Math.LN2);

  it('finds the bottom of a smooth bowl in few evaluations', () => {
    const found = differenceNewton(bowl, [0, 0], options);
    if (found.kind !== 'minimum') throw new Error(found.kind);
    expect(found.minimum.point[0]).toBeCloseTo(1, 5);
    expect(found.minimum.point[1]).toBeCloseTo(Math.LN2, 5);
    expect(found.minimum.evaluations).toBeLessThan(50);
    const again = differenceNewton(bowl, [1.002, Math.LN2], { ...options, known: found.curvature });
    if (again.kind !== 'minimum') throw new Error(again.kind);
    expect(again.minimum.point[0]).toBeCloseTo(1, 5);
    expect(again.minimum.evaluations).toBeLessThan(15);
  });

  it('says which way a minimum lies outside its range', () => {
    expect(differenceNewton(([x = NaN]) => Math.exp(2 * x), [0], options)).toMatchObject({
      kind: 'left',
      axis: 0,
      side: 'low'
    });
    expect(differenceNewton(([x = NaN]) => -x * x, [0.5], options).kind).toBe('failed');
  });
});

describe('the search for scales', () => {
  it('finds 0 where 0 is best, and the rest beside it, without a long search', () => {
    let calls = 0;
    const found = minimiseScales(
      ([a = NaN, b = NaN]) => {
        calls += 1;
        return (a - 2) ** 2 + (b + 0.5) ** 2 + 0.1 * a * b;
      },
      [1, 1],
      { free: [true, true] }
    );
    expect(found.point[1]).toBe(0);
    expect(found.point[0]).toBeCloseTo(2, 5);
    expect(calls).toBeLessThan(150);
  });

  it('leaves what is not free where it is', () => {
    const found = minimiseScales(([a = NaN, b = NaN]) => (a - 2) ** 2 + (b - 3) ** 2, [0, 1], {
      free: [false, true]
    });
    expect(found.point[0]).toBe(0);
    expect(found.point[1]).toBeCloseTo(3, 5);
  });
});

describe('small numerics', () => {
  it('solve a system that needs its rows exchanged', () => {
    const rows = [Float64Array.of(0, 2, 1), Float64Array.of(1, 1, 1), Float64Array.of(2, 1, -1)];
    const solved = solveLinear(rows, Float64Array.of(7, 6, 1));
    [1, 2, 3].forEach((value, i) => expect(solved[i]).toBeCloseTo(value, 12));
    expect(() => solveLinear([Float64Array.of(1, 2), Float64Array.of(2, 4)], Float64Array.of(1, 2))).toThrow(
      /system: column 1/
    );
  });

  it('integrate a polynomial exactly', () => {
    expect(integrate((x) => x ** 9 + x ** 2, -1, 2, 5)).toBeCloseTo((2 ** 10 - 1) / 10 + 3, 10);
  });
});
