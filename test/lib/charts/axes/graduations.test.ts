import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { graduations } from '#lib/charts/axes/graduations.ts';

describe('graduations of a dip-rod', () => {
  it('draw fine lines at each tenth, longer at halves, numbers at whole steps', () => {
    const lines = graduations([0, 2], 400, { labelGapPx: 200 });
    expect(lines).toHaveLength(21);
    expect(lines.filter((line) => line.level === 'whole').map((line) => line.label)).toEqual(['0', '1', '2']);
    expect(lines.filter((line) => line.level === 'half').map((line) => line.value)).toEqual([0.5, 1.5]);
  });

  it('keep to fifths, then halves, where tenths would stand too close', () => {
    const between = (px: number) => graduations([0, 1], px, { labelGapPx: px / 1.4 }).length;
    expect(between(40)).toBe(11);
    expect(between(20)).toBe(6);
    expect(between(8)).toBe(3);
  });

  it('write signs where asked, the true minus always, and no sign at zero', () => {
    const labels = graduations([-1, 1], 100, { labelGapPx: 50, signed: true }).map((line) => line.label);
    expect(labels.filter((label) => label !== '')).toEqual(['\u22121', '0', '+1']);
  });

  it('keep long numbers apart where they stand side by side', () => {
    const numbers = (characterPx: number) =>
      graduations([0, 0.098], 842, { labelGapPx: 56, characterPx }).filter(({ label }) => label !== '');
    expect(numbers(0).map(({ label }) => label)).toContain('0.005');
    const wide = numbers(7.2).map(({ label }) => label);
    expect(wide.slice(0, 3)).toEqual(['0.00', '0.01', '0.02']);
  });

  it('are none for an empty domain or length', () => {
    expect(graduations([1, 1], 100)).toEqual([]);
    expect(graduations([0, NaN], 100)).toEqual([]);
    expect(graduations([0, 1], 0)).toEqual([]);
  });

  it('stay inside the domain, evenly spaced, numbers no closer than half the gap asked', () => {
    const wide = fc.double({ min: -1e5, max: 1e5, noNaN: true });
    fc.assert(
      fc.property(
        wide,
        fc.double({ min: 0.01, max: 1e5, noNaN: true }),
        fc.integer({ min: 60, max: 1200 }),
        (low, span, px) => {
          const high = low + span;
          const lines = graduations([low, high], px);
          const whole = lines.filter((line) => line.level === 'whole');
          const gap = ((whole[1]?.value ?? Infinity) - (whole[0]?.value ?? 0)) * (px / (high - low));
          expect(gap).toBeGreaterThan(12);
          for (const line of lines) {
            expect(line.value).toBeGreaterThanOrEqual(low - span * 1e-6);
            expect(line.value).toBeLessThanOrEqual(high + span * 1e-6);
          }
          const step = (lines[1]?.value ?? 0) - (lines[0]?.value ?? 0);
          lines.slice(1).forEach((line, index) => {
            expect(Math.abs(line.value - (lines[index]?.value ?? 0) - step)).toBeLessThan(span * 1e-6);
          });
        }
      ),
      { numRuns: 60 }
    );
  });
});
