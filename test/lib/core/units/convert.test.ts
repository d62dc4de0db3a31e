import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  canonicalUnits,
  fromCanonical,
  isUnitCode,
  litresPerImperialGallon,
  litresPerUsGallon,
  toCanonical,
  unitCodes,
  unitOf,
  type UnitCode
} from '#lib/core/units/index.ts';

const handbook = 'NIST Handbook 44, Appendix C';
const guide = 'NIST SP 811';
const petroleum = 'API MPMS Chapter 11.5';
const definition = 'SI Brochure';

describe('toCanonical', () => {
  it.each<[UnitCode, number, number, string]>([
    ['usGallon', 1, 3.785411784, handbook],
    ['imperialGallon', 1, 4.54609, handbook],
    ['usBarrel', 1, 158.987294928, handbook],
    ['usBarrel', 1, 42 * 3.785411784, 'a barrel is 42 US gallons'],
    ['cubicMetre', 1, 1000, definition],
    ['hectolitre', 1, 100, definition],
    ['pound', 1, 0.45359237, guide],
    ['pound', 2.2046226218487757, 1, guide],
    ['tonne', 1, 1000, definition],
    ['kilogramPerLitre', 0.8, 800, definition],
    ['poundPerUsGallon', 1, 119.826427316897, guide],
    ['poundPerImperialGallon', 1, 99.7763726631017, guide],
    ['poundPerLitre', 1.77, 802.8584949, 'pound of 0.45359237 kg'],
    ['fahrenheit', 32, 0, guide],
    ['fahrenheit', 212, 100, guide],
    ['fahrenheit', -40, -40, guide],
    ['kelvin', 288.15, 15, definition],
    ['poundPerSquareInch', 1, 6.894757293168, guide],
    ['bar', 1, 100, guide],
    ['millibar', 1013.25, 101.325, guide],
    ['nanosiemensPerMetre', 0.25, 250, definition],
    ['hour', 1.5, 90, definition],
    ['second', 90, 1.5, definition],
    ['milligramPerUsGallon', 3.785411784, 1, handbook],
    ['milligramPerCubicMetre', 500, 0.5, definition],
    ['percentByVolume', 0.003, 30, definition],
    ['degreeApi', 10, 999.016, petroleum],
    ['relativeDensity60F', 1, 999.016, petroleum]
  ])('turns %s %d into %d (%s)', (code, value, canonical) => {
    expect(Math.abs(toCanonical(code, value) - canonical)).toBeLessThanOrEqual(Math.abs(canonical) * 1e-14);
  });

  it.each([
    [6.5, 778.87],
    [6.6, 790.85],
    [6.7, 802.84],
    [6.8, 814.82],
    [6.9, 826.8],
    [7, 838.78]
  ])(
    'turns %d lb/US gal into %d kg/m3 (computed independently from the exact factors)',
    (pounds, density) => {
      expect(toCanonical('poundPerUsGallon', pounds)).toBeCloseTo(density, 2);
    }
  );

  it.each([
    [37, 0.83976, 838.94, 7.0013],
    [40, 0.82507, 824.26, 6.8788],
    [42, 0.81556, 814.76, 6.7995],
    [45, 0.8017, 800.91, 6.6839],
    [47, 0.79272, 791.94, 6.609],
    [51, 0.77534, 774.58, 6.4642]
  ])(
    'turns %d degrees API into its relative density and density at 60 F (computed independently, API MPMS 11.5)',
    (api, relative, density, poundsPerGallon) => {
      const at60F = toCanonical('degreeApi', api);
      expect(fromCanonical('relativeDensity60F', at60F)).toBeCloseTo(relative, 5);
      expect(at60F).toBeCloseTo(density, 2);
      expect(fromCanonical('poundPerUsGallon', at60F)).toBeCloseTo(poundsPerGallon, 4);
    }
  );

  it('makes an imperial gallon 1.200949925504855 US gallons (computed independently from the exact factors)', () => {
    expect(litresPerImperialGallon / litresPerUsGallon).toBeCloseTo(1.200949925504855, 14);
  });

  it('puts a nozzle of nominally 50 psi at 3.45 bar (common practice, no source)', () => {
    expect(fromCanonical('bar', toCanonical('poundPerSquareInch', 50))).toBeCloseTo(3.45, 2);
  });

  it.each([-131.5, -200, NaN])('has no density for %d degrees API', (api) => {
    expect(toCanonical('degreeApi', api)).toBeNaN();
  });

  it.each([0, -1, NaN])('has no degrees API for a density of %d', (density) => {
    expect(fromCanonical('degreeApi', density)).toBeNaN();
  });
});

describe('the table of units', () => {
  it('computes every canonical unit as itself', () => {
    for (const code of Object.values(canonicalUnits)) expect(toCanonical(code, 123.456)).toBe(123.456);
  });

  it('names a source and a code for every unit', () => {
    for (const code of unitCodes()) {
      expect(isUnitCode(code)).toBe(true);
      expect(unitOf(code).source).not.toBe('');
    }
    expect(isUnitCode('toString')).toBe(false);
    expect(unitCodes('volume')).toHaveLength(6);
  });

  it('agrees within 1e-9 when a record is written in any unit and read back', () => {
    const code = fc.constantFrom(...unitCodes());
    fc.assert(
      fc.property(code, fc.double({ min: 0.5, max: 1e6, noNaN: true }), (unit, canonical) => {
        const back = toCanonical(unit, fromCanonical(unit, canonical));
        expect(Math.abs(back - canonical)).toBeLessThanOrEqual(1e-9 * canonical);
      })
    );
  });

  it('scales: twice the amount is twice the canonical amount where zero is zero', () => {
    const code = fc.constantFrom(...unitCodes('volume'), ...unitCodes('mass'), ...unitCodes('pressure'));
    fc.assert(
      fc.property(code, fc.double({ min: 1e-3, max: 1e6, noNaN: true }), (unit, amount) => {
        expect(toCanonical(unit, 2 * amount)).toBe(2 * toCanonical(unit, amount));
      })
    );
  });
});
