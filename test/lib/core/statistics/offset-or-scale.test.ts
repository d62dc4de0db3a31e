import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { kindOfLine, offsetOrScale, type OffsetOrScale } from '#lib/core/statistics/index.ts';

// NIST Statistical Reference Datasets, linear regression, Norris: y, x. Certified values of the file beside them.
const norris =
  `0.1 0.2 338.8 337.4 118.1 118.2 888.0 884.6 9.2 10.1 228.1 226.5 668.5 666.3 998.5 996.3 449.1 448.6
778.9 777.0 559.2 558.2 0.3 0.4 0.1 0.6 778.1 775.5 668.8 666.9 339.3 338.0 448.9 447.5 10.8 11.6 557.7 556.0
228.3 228.1 998.0 995.8 888.8 887.6 119.6 120.2 0.3 0.3 0.6 0.3 557.6 556.8 339.3 339.1 888.0 887.2 998.5 999.0
778.9 779.0 10.2 11.1 117.6 118.3 228.9 229.2 668.4 669.1 449.2 448.9 0.2 0.5`
    .split(/\s+/)
    .map(Number);
const norrisY = norris.filter((_value, i) => i % 2 === 0);
const norrisX = norris.filter((_value, i) => i % 2 === 1);

function fitted(x: readonly number[], y: readonly number[], weight = x.map(() => 1)): OffsetOrScale {
  const line = offsetOrScale(x, y, weight);
  if (!line.estimable) throw new Error(`line: ${line.reason}`);
  return line;
}

describe('a constant or a share', () => {
  it('is the certified line of NIST StRD Norris', () => {
    const line = fitted(norrisX, norrisY);
    expect(line.n).toBe(36);
    expect(line.offset.value).toBeCloseTo(-0.262323073774029, 10);
    expect(line.offset.error).toBeCloseTo(0.232818234301152, 10);
    expect(line.scale.value).toBeCloseTo(1.00211681802045, 12);
    expect(line.scale.error).toBeCloseTo(0.429796848199937e-3, 12);
    expect(line.residual).toBeCloseTo(0.884796396144373, 10);
  });

  it('through zero alone is the certified slope of NIST StRD NoInt1: y 130 to 140 at x 60 to 70', () => {
    const x = Array.from({ length: 11 }, (_none, i) => 60 + i);
    const line = fitted(
      x,
      x.map((value) => value + 70)
    );
    expect(line.shareAlone.value).toBeCloseTo(2.07438016528926, 12);
  });

  it('counts a point of weight 2 as two points, and none of weight 0 or missing', () => {
    fc.assert(
      fc.property(
        fc.array(
          fc.tuple(fc.double({ min: 1, max: 50, noNaN: true }), fc.double({ min: -9, max: 9, noNaN: true })),
          {
            minLength: 4,
            maxLength: 12
          }
        ),
        (points) => {
          const x = [...points.map(([value]) => value), 100, 7];
          const y = [...points.map(([, value]) => value), 3, NaN];
          const twice = fitted([...x, 100], [...y, 3]);
          const weighted = fitted([...x, 5], [...y, 1e6], [...x.map((value) => (value === 100 ? 2 : 1)), 0]);
          expect(weighted.scale.value).toBeCloseTo(twice.scale.value, 8);
          expect(weighted.offset.value).toBeCloseTo(twice.offset.value, 8);
        }
      ),
      { numRuns: 30 }
    );
  });

  it.each([
    ['a constant', 'constant', (x: number) => -120 + 0 * x],
    ['a share', 'share', (x: number) => 0.02 * x],
    ['both', 'both', (x: number) => -300 + 0.04 * x],
    ['nothing', 'neither', () => 0]
  ] as const)('names %s', (_what, kind, truth) => {
    const x = Array.from({ length: 400 }, (_none, i) => 1000 + 20 * i);
    // A pattern of period 8 without trend, +-30 kg.
    const y = x.map((value, i) => truth(value) + 30 * Math.sin((i * Math.PI) / 4 + 0.3));
    expect(kindOfLine(fitted(x, y), 3)).toBe(kind);
  });

  it('cannot tell which where all uplifts are of about one size', () => {
    const x = Array.from({ length: 200 }, (_none, i) => 6000 + (i % 5));
    const y = x.map((_value, i) => -120 + 30 * Math.sin((i * Math.PI) / 4 + 0.3));
    expect(kindOfLine(fitted(x, y), 3)).toBe('cannotTell');
  });

  it('is not estimable from two points, or where all are of one size', () => {
    expect(offsetOrScale([1, 2], [1, 2], [1, 1])).toMatchObject({ estimable: false, reason: 'too-few' });
    expect(offsetOrScale([5, 5, 5], [1, 2, 3], [1, 1, 1])).toMatchObject({ estimable: false });
  });
});
