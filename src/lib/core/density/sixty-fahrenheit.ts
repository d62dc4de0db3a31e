import { sixtyFahrenheitC, toCanonical } from '#lib/core/units/index.ts';
import { density15, densityAt } from './correction.ts';
import type { Edition } from './editions.ts';

/** Density at 15 C from a density at 60 F, kg/m3; NaN outside the range of the edition. */
export const density15From60F = (density60FKgM3: number, edition: Edition): number =>
  density15(density60FKgM3, sixtyFahrenheitC, edition);

/** Density at 60 F from a density at 15 C, kg/m3; NaN outside the range of the edition. */
export const density60F = (density15KgM3: number, edition: Edition): number =>
  densityAt(density15KgM3, sixtyFahrenheitC, edition);

/** Density at 15 C, kg/m3, from relative density 60/60 F. */
export const density15FromRelativeDensity = (relativeDensity: number, edition: Edition): number =>
  density15From60F(toCanonical('relativeDensity60F', relativeDensity), edition);

/**
 * Density at 15 C, kg/m3, from degrees API at 60 F.
 *
 * Example: `density15FromDegreeApi(45, '2004')` is 801.32.
 */
export const density15FromDegreeApi = (degreesApi: number, edition: Edition): number =>
  density15From60F(toCanonical('degreeApi', degreesApi), edition);
