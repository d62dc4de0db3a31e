import { editions, volumeCorrectionFactor } from '#lib/core/density/index.ts';
import { toCanonical, type UnitCode } from '#lib/core/units/index.ts';
import type { PublishedRow } from './published-row.ts';

const measurementCanada = 'Measurement Canada, volume correction factors, January 2016';

/** Factors of volume to 15 °C. */
export function factorRows(): PublishedRow[] {
  const published: readonly (readonly [density15: number, temperatureC: number, factor: number])[] = [
    [800, -40, 1.0502],
    [800, -35, 1.0457],
    [800, -30, 1.0412],
    [800, -25, 1.0367],
    [800, -20, 1.0322],
    [710, -40, 1.07],
    [710, -20, 1.045]
  ];
  return published.map(([density15, temperatureC, factor]) => ({
    part: 'density',
    what: `Factor to 15 °C of fuel of ${density15} kg/m³ at ${String(temperatureC).replace('-', '−')} °C`,
    source: measurementCanada,
    unit: '',
    published: factor,
    decimals: 4,
    compute: () => volumeCorrectionFactor(density15, temperatureC, editions[0])
  }));
}

/** Units by their definition. */
export function unitRows(): PublishedRow[] {
  const nist = 'NIST Handbook 44, Appendix C';
  const published: readonly (readonly [
    what: string,
    code: UnitCode,
    value: number,
    decimals: number,
    unit: string
  ])[] = [
    ['One US gallon', 'usGallon', 3.785411784, 9, 'L'],
    ['One imperial gallon', 'imperialGallon', 4.54609, 5, 'L'],
    ['One pound', 'pound', 0.45359237, 8, 'kg'],
    ['One US barrel', 'usBarrel', 158.987294928, 9, 'L']
  ];
  return published.map(([what, code, value, decimals, unit]) => ({
    part: 'units',
    what,
    source: nist,
    unit,
    published: value,
    decimals,
    compute: () => toCanonical(code, 1)
  }));
}
