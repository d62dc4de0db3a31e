import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { heatLayout, heatPlace, heatStep } from '#lib/charts/calendar-heat.ts';
import { blockRuns, sidePlaces, sideStep, squarePx } from '#lib/charts/matrix.ts';
import { fullShare, fullestBin, ridgePath } from '#lib/charts/ridges.ts';
import { binPoints, countStep, countSteps } from '#lib/charts/scatter-bins.ts';
import { limitAt, pointOfEvent, unbroken, type SeriesPoint } from '#lib/charts/series-chart.ts';

describe('a calendar of coverage', () => {
  it('fits the width by cutting into bands, cells never narrower than 9 px', () => {
    fc.assert(
      fc.property(fc.integer({ min: 300, max: 1400 }), fc.integer({ min: 1, max: 600 }), (width, columns) => {
        const layout = heatLayout(width, 12, columns, 50);
        expect(layout.perBand * layout.bands).toBeGreaterThanOrEqual(columns);
        expect(50 + layout.perBand * layout.cellPx).toBeLessThanOrEqual(width + 0.001);
        expect(layout.cellPx).toBeGreaterThanOrEqual(9);
      }),
      { numRuns: 80 }
    );
  });

  it('never puts two cells in one place', () => {
    const layout = heatLayout(358, 3, 78, 50);
    const places = Array.from({ length: 78 * 3 }, (_, i) => heatPlace(layout, i % 3, Math.floor(i / 3), 3));
    expect(new Set(places.map(({ x, y }) => `${x} ${y}`)).size).toBe(78 * 3);
    expect(Math.max(...places.map(({ y }) => y))).toBeLessThan(layout.height);
  });

  it.each([
    [0, 0, 0],
    [0, 10, 1],
    [59, 100, 1],
    [60, 100, 2],
    [80, 100, 3],
    [95, 100, 4],
    [99, 100, 4],
    [100, 100, 5]
  ])('%d done of %d due is step %d', (done, due, step) => {
    expect(heatStep(done, due)).toBe(step);
  });
});

describe('bins', () => {
  it('count each point inside the domain once, the upper edge in the last bin', () => {
    const bins = binPoints([0, 0.4, 1, 2, NaN, 5], [0, 0.2, 1, 2, 1, 1], [0, 2], [0, 2], 2, 2);
    expect(bins.map((bin) => [bin.key, bin.count])).toEqual([
      ['0-0', 2],
      ['1-1', 2]
    ]);
  });

  it('hold each point between their edges', () => {
    const point = fc.tuple(
      fc.double({ min: -3, max: 3, noNaN: true }),
      fc.double({ min: -3, max: 3, noNaN: true })
    );
    fc.assert(
      fc.property(fc.array(point, { maxLength: 60 }), (points) => {
        const xs = points.map(([x]) => x);
        const ys = points.map(([, y]) => y);
        const bins = binPoints(xs, ys, [-2, 2], [-1, 1], 7, 5);
        const inside = points.filter(([x, y]) => Math.abs(x) <= 2 && Math.abs(y) <= 1).length;
        expect(bins.reduce((sum, bin) => sum + bin.count, 0)).toBe(inside);
        for (const bin of bins) {
          const held = points.filter(
            ([x, y]) => x >= bin.x0 - 1e-9 && x <= bin.x1 + 1e-9 && y >= bin.y0 - 1e-9 && y <= bin.y1 + 1e-9
          );
          expect(held.length).toBeGreaterThanOrEqual(bin.count);
        }
      }),
      { numRuns: 60 }
    );
  });

  it.each([
    [100, [2, 6, 15, 39, 100]],
    [3, [1, 2, 3]],
    [1, [1]],
    [0, []]
  ])('ink steps up to %d end at %o', (most, steps) => {
    expect(countSteps(most)).toEqual(steps);
  });

  it('make the fullest bin the darkest however few steps there are', () => {
    for (const most of [1, 2, 7, 100, 90_000]) {
      const steps = countSteps(most);
      expect(countStep(most, steps)).toBe(5);
      expect(countStep(1, steps)).toBe(6 - steps.length);
    }
  });
});

describe('the residual matrix', () => {
  const sides = ['a', 'a', 'b', 'a'].map((block, index) => ({
    key: `${index}`,
    label: '',
    effect: 0,
    low: 0,
    high: 0,
    n: 1,
    block
  }));

  it.each([
    [-9, 1],
    [-1, 1],
    [-0.5, 2],
    [0, 4],
    [NaN, 4],
    [0.5, 6],
    [1, 7],
    [9, 7]
  ])('inks %d on a scale to 1 in step %d', (value, step) => {
    expect(sideStep(value, 1)).toBe(step);
  });

  it('gives opposite values opposite inks', () => {
    for (const value of [0.05, 0.2, 0.41, 0.73, 0.99])
      expect(sideStep(value, 1) + sideStep(-value, 1)).toBe(8);
  });

  it('parts blocks by a gap and names their runs', () => {
    expect(sidePlaces(sides, 20, 10)).toEqual([0, 20, 50, 80]);
    expect(blockRuns(sides)).toEqual([
      { block: 'a', first: 0, last: 1 },
      { block: 'b', first: 2, last: 2 },
      { block: 'a', first: 3, last: 3 }
    ]);
  });

  it('grows a square by area, one uplift still visible, none for none', () => {
    expect(squarePx(100, 100, 21)).toBe(20);
    expect(squarePx(25, 100, 21)).toBe(10);
    expect(squarePx(1, 1e6, 21)).toBe(3);
    expect(squarePx(0, 100, 21)).toBe(0);
  });
});

describe('ridges', () => {
  const flat = { key: 'flat', label: '', n: 300, counts: [100, 100, 100] };
  const spike = { key: 'spike', label: '', n: 1000, counts: [0, 1000, 0] };
  const edges = [0, 1, 2, 3];

  it('are scaled so that one spike does not flatten the others', () => {
    expect(fullShare([flat])).toBeCloseTo(1 / 3, 9);
    expect(fullShare([flat, flat, spike])).toBe(1);
    expect(
      fullShare([{ ...flat, counts: [100, 100, 100], n: 1000 }, { ...flat, n: 1000 }, spike])
    ).toBeCloseTo(0.3, 9);
    expect(fullShare([{ ...flat, n: 9 }])).toBe(0);
  });

  it('are cut at the full height and closed on the base', () => {
    expect(ridgePath(spike, edges, (x) => x * 10, 100, 0.5, 40)).toBe('M0 100V100H10V60H20V100H30V100Z');
    expect(fullestBin(spike, edges)).toEqual({ from: 1, to: 2, share: 1 });
  });
});

describe('series', () => {
  const point = (x: number, value: number): SeriesPoint => ({
    key: `${x}`,
    label: '',
    x,
    value,
    mark: 'open',
    word: ''
  });

  it('break where a value is missing', () => {
    const runs = unbroken([point(0, NaN), point(1, 1), point(2, 2), point(3, NaN), point(4, 4)]);
    expect(runs.map((run) => run.map((each) => each.x))).toEqual([[1, 2], [4]]);
  });

  it('put an event on the last point before it, or on the first of all', () => {
    const points = [point(10, 1), point(20, 1), point(30, 1)];
    expect([5, 10, 25, 99].map((x) => pointOfEvent(points, x))).toEqual([0, 0, 1, 2]);
  });

  it('have no limit outside its stretches', () => {
    const limit = { key: 'l', label: '', stretches: [{ from: 10, to: 20, value: 3 }] };
    expect([9, 10, 20, 21].map((x) => limitAt(limit, x))).toEqual([NaN, 3, 3, NaN]);
  });
});
