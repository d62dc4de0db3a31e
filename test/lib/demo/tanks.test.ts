import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { demoTypes } from '#lib/demo/fleet.ts';
import { fillTanks } from '#lib/demo/tanks.ts';

describe('fuel in the tanks', () => {
  it('adds up to the total, never above the usable mass of a tank, and alike on both sides', () => {
    const anyFilling = fc
      .integer({ min: 0, max: demoTypes.length - 1 })
      .chain((type) =>
        fc.tuple(fc.constant(type), fc.double({ min: 0, max: demoTypes[type]?.capacityKg ?? 0, noNaN: true }))
      );
    fc.assert(
      fc.property(anyFilling, ([typeIndex, totalKg]) => {
        const tanks = demoTypes[typeIndex]?.tanks ?? [];
        const filled = fillTanks(typeIndex, totalKg);
        const sumKg = filled.reduce((sum, each) => sum + each, 0);
        expect(sumKg).toBeCloseTo(totalKg, 6);
        for (const [index, each] of filled.entries()) {
          expect(each).toBeGreaterThanOrEqual(0);
          expect(each).toBeLessThanOrEqual((tanks[index]?.usableKg ?? 0) + 1e-9);
          const twin = tanks.findIndex(
            (tank) =>
              tank.name ===
              tanks[index]?.name.replace(/left|right/, (side) => (side === 'left' ? 'right' : 'left'))
          );
          expect(filled[twin]).toBe(each);
        }
      })
    );
  });

  it('reaches the sticking probe of the AV310 at 61 t', () => {
    expect(fillTanks(1, 61_000)[0]).toBe(3400);
    expect(fillTanks(1, 60_999)[0]).toBeLessThan(3400);
  });
});
