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
