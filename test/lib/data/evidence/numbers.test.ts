import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { computedCell, plainDecimal, roundHalfAway } from '#lib/data/evidence/numbers.ts';

describe('a number in an export', () => {
  it('reads back as the same double, written without an exponent', () => {
    fc.assert(
      fc.property(fc.double({ noNaN: true, noDefaultInfinity: true }), (value) => {
        const text = plainDecimal(value);
        expect(text).toMatch(/^-?\d+(\.\d+)?$/);
        expect(Number(text)).toBe(value === 0 ? 0 : value);
      }),
      { numRuns: 2_000 }
    );
  });

  it.each([
    [-0, '0'],
    [1e21, '1000000000000000000000'],
    [1.5e-7, '0.00000015'],
    [-1.2345e25, '-12345000000000000000000000'],
    [0.1, '0.1']
  ])('writes %s as %s', (value, text) => {
    expect(plainDecimal(value)).toBe(text);
  });

  it('has no place for NaN', () => {
    expect(() => plainDecimal(NaN)).toThrow('need a finite one');
    expect(computedCell(NaN, 3)).toBe('');
  });

  it.each([
    [0.0005, 3, 0.001],
    [-0.0005, 3, -0.001],
    [2.5, 0, 3],
    [-2.5, 0, -3],
    [-0.0004, 3, 0],
    [11798.6004, 3, 11798.6]
  ])('rounds %s to %s places as %s, halves away from zero', (value, decimals, rounded) => {
    expect(roundHalfAway(value, decimals)).toBe(rounded);
  });
});
