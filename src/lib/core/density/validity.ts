import { density15 } from './correction.ts';
import { type Edition, formOf } from './editions.ts';
import { baseDensity } from './solve.ts';

/** Whether the tables of an edition cover a density and a temperature, and if not, why. */
export const validities = [
  'valid',
  'densityMissing',
  'temperatureMissing',
  'densityBelowRange',
  'densityAboveRange',
  'temperatureBelowRange',
  'temperatureAboveRange'
] as const;

export type Validity = (typeof validities)[number];

/** Inside the range at every temperature: a refused density below it is too low, above it too high. */
const nominalKgM3 = 800;

function temperatureValidity(temperatureC: number, edition: Edition): Validity {
  const form = formOf(edition);
  if (!Number.isFinite(temperatureC)) return 'temperatureMissing';
  if (temperatureC < form.minimumTemperatureC) return 'temperatureBelowRange';
  return temperatureC > form.maximumTemperatureC ? 'temperatureAboveRange' : 'valid';
}

/** Why `volumeCorrectionFactor` or `densityAt` gives NaN for a density at 15 C (kg/m3) and a temperature (degC). */
export function validity(density15KgM3: number, temperatureC: number, edition: Edition): Validity {
  if (!Number.isFinite(density15KgM3)) return 'densityMissing';
  const temperature = temperatureValidity(temperatureC, edition);
  if (temperature !== 'valid') return temperature;
  if (density15KgM3 <= 0) return 'densityBelowRange';
  const form = formOf(edition);
  const base = baseDensity(form, density15KgM3, form.differenceAt15C);
  if (base < form.minimumBaseKgM3) return 'densityBelowRange';
  return base > form.maximumBaseKgM3 ? 'densityAboveRange' : 'valid';
}

/** Why `density15` gives NaN for an observed density (kg/m3) and its temperature (degC). */
export function observedValidity(observedKgM3: number, temperatureC: number, edition: Edition): Validity {
  if (!Number.isFinite(observedKgM3)) return 'densityMissing';
  const temperature = temperatureValidity(temperatureC, edition);
  if (temperature !== 'valid') return temperature;
  if (Number.isFinite(density15(observedKgM3, temperatureC, edition))) return 'valid';
  return observedKgM3 < nominalKgM3 ? 'densityBelowRange' : 'densityAboveRange';
}
