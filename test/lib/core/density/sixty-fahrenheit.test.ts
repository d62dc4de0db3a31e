import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  density15From60F,
  density15FromDegreeApi,
  density15FromRelativeDensity,
  density60F,
  editions
} from '#lib/core/density/index.ts';
import { form2004 } from '#lib/core/density/form-2004.ts';

describe('density at 15 C from density at 60 F', () => {
  it.each([
    [37, 0.83976, 839.33],
    [40, 0.82507, 824.66],
    [42, 0.81556, 815.16],
    [45, 0.8017, 801.32],
    [47, 0.79272, 792.35],
    [51, 0.77534, 775.05]
  ])(
    'is the one computed independently from the published equations for %d degrees API',
    (api, relative, density) => {
      expect(density15FromDegreeApi(api, '2004')).toBeCloseTo(density, 2);
      expect(Math.abs(density15FromDegreeApi(api, '1980') - density)).toBeLessThan(0.011);
      expect(Math.abs(density15FromRelativeDensity(relative, '2004') - density)).toBeLessThan(0.011);
    }
  );

  it('comes back to the density at 60 F', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 790, max: 836, noNaN: true }),
        fc.constantFrom(...editions),
        (density, edition) => {
          expect(Math.abs(density60F(density15From60F(density, edition), edition) - density)).toBeLessThan(
            2e-9
          );
        }
      )
    );
  });

  it('takes 60 F as 60.0068749 on the scale the standard of 2004 was fitted on (API MPMS 11.1-2004)', () => {
    expect(form2004.difference(140 / 9)).toBeCloseTo(0, 7);
  });

  it.each([NaN, -131.5, 500])('is missing for %d degrees API', (api) => {
    expect(density15FromDegreeApi(api, '2004')).toBeNaN();
  });
});
