import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  density15,
  densityAt,
  type Edition,
  editions,
  observedValidity,
  type Validity,
  validity
} from '#lib/core/density/index.ts';

describe('validity', () => {
  it.each<[number, number, Edition, Validity]>([
    [800, 15, '1980', 'valid'],
    [653, -40, '1980', 'valid'],
    [1075, 90, '1980', 'valid'],
    [652.9, 15, '1980', 'densityBelowRange'],
    [1075.1, 15, '1980', 'densityAboveRange'],
    [800, -40.1, '1980', 'temperatureBelowRange'],
    [800, 90.1, '1980', 'temperatureAboveRange'],
    [800, 90.1, '2004', 'valid'],
    [800, -50.1, '2004', 'temperatureBelowRange'],
    [800, 150.1, '2004', 'temperatureAboveRange'],
    [605, 15, '2004', 'densityBelowRange'],
    [1170, 15, '2004', 'densityAboveRange'],
    [0.8, 15, '1980', 'densityBelowRange'],
    [-5, 15, '1980', 'densityBelowRange'],
    [NaN, 15, '1980', 'densityMissing'],
    [800, NaN, '1980', 'temperatureMissing']
  ])(
    'says of %d kg/m3 at 15 C, wanted at %d C in edition %s: %s',
    (density, temperature, edition, reason) => {
      expect(validity(density, temperature, edition)).toBe(reason);
    }
  );

  it.each<[number, number, Edition, Validity]>([
    [790, 25, '1980', 'valid'],
    [0.79, 25, '1980', 'densityBelowRange'],
    [79000, 25, '1980', 'densityAboveRange'],
    [640, 20, '1980', 'densityBelowRange'],
    [NaN, 25, '2004', 'densityMissing'],
    [790, NaN, '2004', 'temperatureMissing'],
    [790, 200, '2004', 'temperatureAboveRange']
  ])('says of %d kg/m3 observed at %d C in edition %s: %s', (density, temperature, edition, reason) => {
    expect(observedValidity(density, temperature, edition)).toBe(reason);
  });

  it('is "valid" exactly where the correction gives a number', () => {
    const number = fc.oneof(fc.double({ min: 500, max: 1300 }), fc.double());
    const temperature = fc.oneof(fc.double({ min: -60, max: 160 }), fc.double());
    fc.assert(
      fc.property(number, temperature, fc.constantFrom(...editions), (density, t, edition) => {
        expect(validity(density, t, edition) === 'valid').toBe(
          Number.isFinite(densityAt(density, t, edition))
        );
        expect(observedValidity(density, t, edition) === 'valid').toBe(
          Number.isFinite(density15(density, t, edition))
        );
      }),
      { numRuns: 300 }
    );
  });
});
