import type { UncertaintySettings } from '#lib/data/settings/index.ts';

export const uncertaintyWords: Record<keyof UncertaintySettings, string> = {
  meterErrorPercent: 'Largest error of the measuring system, % (where the vehicle’s class is not entered)',
  hydrometerReproducibilityKgM3: 'Reproducibility of a glass hydrometer, kg/m³',
  densitometerReproducibilityKgM3: 'Reproducibility of a digital densitometer, kg/m³',
  inLineErrorKgM3: 'Error of an in-line instrument, kg/m³',
  certificateDoubtKgM3: 'Doubt of a certificate’s density for the fuel delivered, kg/m³',
  temperatureErrorC: 'Error of a temperature, °C',
  sharedTemperatureDoubtC: 'Sample against meter temperature where one stands for both, °C',
  missingSampleTemperatureDoubtC: 'Sample temperature where none is given, °C',
  missingMeterTemperatureDoubtC: 'Meter temperature where none is given, °C',
  correlationErrorKgM3: 'What the density tables leave open, kg/m³',
  defaultDensityDoubtKgM3: 'Doubt of a default density, kg/m³',
  gaugeErrorPercentOfFull: 'Error of a gauge, % of full scale',
  gaugeCorrelation: 'Correlation of the two gauge readings of one refuelling',
  groundBurnDoubtPercent: 'Doubt of a ground burn worked out from minutes, %',
  unknownGroundMinutes: 'Minutes on the ground where none are given, where a burn rate is set',
  defuelledErrorPercent: 'Error of a defuelled amount, %',
  coverageFactor: 'Coverage factor of expanded uncertainties'
};

export const basisWords: Readonly<Record<string, string>> = {
  published: 'a published source',
  fromMemory: 'from memory, not confirmed',
  commonPractice: 'common practice, no source'
};

export const confidenceWords: Readonly<Record<string, string>> = {
  publicCopy: 'read in a public copy',
  secondarySource: 'read about elsewhere',
  fromMemory: 'from memory, not confirmed'
};

/** What a group of constants belongs to; their sources stand above the table. */
export const constantParts: Readonly<Record<string, string>> = {
  '1980': '1980',
  '2004': '2004',
  glass: 'glass',
  sixtyFahrenheitC: 'units',
  waterDensity60FKgM3: 'units'
};

export const constantNames: Readonly<Record<string, string>> = {
  baseC: 'Base temperature, °C',
  baseF: 'Base temperature, °F, on IPTS-68',
  shift: 'Half of what 60 °F on ITS-90 is off, °F',
  its90Divisor: 'Divisor of the temperature, °C',
  its90: 'ITS-90 to IPTS-68, coefficients a1 to a8',
  bandEdgesKgM3: 'Edges of the bands, kg/m³ at the base',
  gasoline: 'Gasoline band',
  transition: 'Transition band',
  jet: 'Jet and kerosine band',
  fuelOil: 'Fuel oil band',
  densityKgM3: 'Valid from and to, kg/m³ at the base',
  temperatureC: 'Valid from and to, °C',
  linearPerC: 'Cubical expansion, per °C',
  quadraticPerC2: 'The same, per °C squared',
  sixtyFahrenheitC: '60 °F in °C',
  waterDensity60FKgM3: 'Density of water at 60 °F, kg/m³'
};
