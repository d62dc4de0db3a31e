import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { isoInstant } from '#lib/data/evidence/instant.ts';

describe('an instant in an export', () => {
  it('is ISO 8601 in UTC and reads back as the same instant', () => {
    const years = fc.integer({ min: Date.UTC(1980, 0, 1), max: Date.UTC(2099, 11, 31) });
    fc.assert(
      fc.property(years, (timeMs) => {
        expect(Date.parse(isoInstant(timeMs))).toBe(timeMs);
      })
    );
  });

  it('writes milliseconds only where there are any', () => {
    expect(isoInstant(Date.UTC(2031, 2, 4, 5, 6, 7))).toBe('2031-03-04T05:06:07Z');
    expect(isoInstant(Date.UTC(2031, 2, 4, 5, 6, 7, 8))).toBe('2031-03-04T05:06:07.008Z');
    expect(isoInstant(NaN)).toBe('');
  });
});
