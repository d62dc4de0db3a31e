import { sixtyFahrenheitC, waterDensity60FKgM3 } from '#lib/core/units/index.ts';
import { constants1980 } from './form-1980.ts';
import { constants2004 } from './form-2004.ts';
import { glassExpansion } from './hydrometer.ts';

/** Every constant that a density here depends on, as one stable text for the fingerprint of the method. */
export const constantsText: string = JSON.stringify({
  1980: constants1980,
  2004: constants2004,
  glass: glassExpansion,
  sixtyFahrenheitC,
  waterDensity60FKgM3
});
