import { type Edition, formOf } from './editions.ts';
import { type DensityForm, factorOf } from './form.ts';
import { baseDensity } from './solve.ts';

const isInRange = (form: DensityForm, baseDensityKgM3: number, temperatureC: number): boolean =>
  baseDensityKgM3 >= form.minimumBaseKgM3 &&
  baseDensityKgM3 <= form.maximumBaseKgM3 &&
  temperatureC >= form.minimumTemperatureC &&
  temperatureC <= form.maximumTemperatureC;

/** Density at the base of the form for a density at 15 C: the same number where 15 C is the base. */
const baseOf15 = (form: DensityForm, density15KgM3: number): number =>
  form.differenceAt15C === 0 ? density15KgM3 : baseDensity(form, density15KgM3, form.differenceAt15C);

/**
 * Volume at 15 C over volume at the temperature, which is also density there over density at 15 C. Density at
 * 15 C in kg/m3, temperature in degC. NaN outside the range of the edition, and for NaN. Source: see the forms.
 *
 * Example: `volumeCorrectionFactor(800, -20, '1980')` is 1.0322 to four decimals, as Measurement Canada prints.
 */
export function volumeCorrectionFactor(
  density15KgM3: number,
  temperatureC: number,
  edition: Edition
): number {
  if (!(density15KgM3 > 0)) return NaN;
  const form = formOf(edition);
  const base = baseOf15(form, density15KgM3);
  if (!isInRange(form, base, temperatureC)) return NaN;
  if (temperatureC === 15) return 1;
  const factor = factorOf(form, base, form.difference(temperatureC));
  return form.differenceAt15C === 0 ? factor : factor / factorOf(form, base, form.differenceAt15C);
}

/** Density at the temperature, kg/m3, from the density at 15 C. NaN outside the range of the edition. */
export function densityAt(density15KgM3: number, temperatureC: number, edition: Edition): number {
  return density15KgM3 * volumeCorrectionFactor(density15KgM3, temperatureC, edition);
}

/**
 * Density at 15 C, kg/m3, from a density observed at a temperature (degC); readings of a glass hydrometer go
 * through `hydrometerCorrected` first. NaN outside the range of the edition, and for NaN.
 *
 * Example: `density15(800, 20, '1980')` is 803.704.
 */
export function density15(observedKgM3: number, temperatureC: number, edition: Edition): number {
  const form = formOf(edition);
  if (!(observedKgM3 > 0) || !isInRange(form, form.minimumBaseKgM3, temperatureC)) return NaN;
  const base = baseDensity(form, observedKgM3, form.difference(temperatureC));
  if (!isInRange(form, base, temperatureC)) return NaN;
  if (temperatureC === 15) return observedKgM3;
  return form.differenceAt15C === 0 ? base : base * factorOf(form, base, form.differenceAt15C);
}

/**
 * Change of density with temperature, kg/m3 per degC (negative), at a temperature. For uncertainty, not for
 * correction: good to about 0.2 % of itself in both editions.
 *
 * Example: about -0.743 for 800 kg/m3 at 15 C.
 */
export function densitySlopeKgM3PerC(density15KgM3: number, temperatureC: number, edition: Edition): number {
  const form = formOf(edition);
  const difference = form.difference(temperatureC);
  const expansion = form.expansion(density15KgM3);
  const perDegree = form.difference(1) - form.difference(0);
  const factor = factorOf(form, density15KgM3, difference);
  return (
    -density15KgM3 * factor * expansion * perDegree * (1 + 0.8 * expansion * (2 * difference + form.shift))
  );
}
