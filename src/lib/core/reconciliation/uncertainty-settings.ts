/** What is assumed about instruments and doubts when a record's uncertainty is worked out. */
export interface UncertaintySettings {
  readonly meterErrorPercent: number;
  readonly hydrometerReproducibilityKgM3: number;
  readonly densitometerReproducibilityKgM3: number;
  readonly inLineErrorKgM3: number;
  readonly certificateDoubtKgM3: number;
  readonly temperatureErrorC: number;
  readonly sharedTemperatureDoubtC: number;
  readonly missingSampleTemperatureDoubtC: number;
  readonly missingMeterTemperatureDoubtC: number;
  readonly correlationErrorKgM3: number;
  readonly defaultDensityDoubtKgM3: number;
  readonly gaugeErrorPercentOfFull: number;
  readonly gaugeCorrelation: number;
  readonly groundBurnDoubtPercent: number;
  readonly unknownGroundMinutes: number;
  readonly defuelledErrorPercent: number;
  readonly coverageFactor: number;
}

/** Where a default comes from. */
export type Basis = 'published' | 'fromMemory' | 'commonPractice';

export interface UncertaintyDefault {
  readonly value: number;
  readonly basis: Basis;
  readonly source: string;
}

/**
 * The defaults, each with what it rests on: none is a fact about the operator's instruments, all are settings.
 * Errors and doubts are half widths of a rectangular distribution; a reproducibility R counts as R / 2.77.
 */
export const uncertaintyDefaults: Readonly<Record<keyof UncertaintySettings, UncertaintyDefault>> = {
  meterErrorPercent: {
    value: 0.5,
    basis: 'fromMemory',
    source:
      'Directive 2014/32/EU Annex VII Table 2, class 0.5; that aircraft refuelling is class 0.5: from memory'
  },
  hydrometerReproducibilityKgM3: { value: 1.2, basis: 'fromMemory', source: 'ASTM D1298' },
  densitometerReproducibilityKgM3: { value: 0.5, basis: 'fromMemory', source: 'ASTM D4052, older statement' },
  inLineErrorKgM3: { value: 1, basis: 'fromMemory', source: 'Directive 2014/32/EU Annex VII Table 4' },
  certificateDoubtKgM3: {
    value: 3,
    basis: 'published',
    source: 'acceptance limit between certificate and check, as published by R. J. Patel, 2018 (secondary)'
  },
  temperatureErrorC: { value: 0.5, basis: 'published', source: 'Directive 2014/32/EU Annex VII Table 4' },
  sharedTemperatureDoubtC: {
    value: 2,
    basis: 'commonPractice',
    source: 'sample and meter differ by so much'
  },
  missingSampleTemperatureDoubtC: {
    value: 5,
    basis: 'commonPractice',
    source: 'no temperature on the ticket'
  },
  missingMeterTemperatureDoubtC: { value: 15, basis: 'commonPractice', source: 'fuel between 0 and 30 C' },
  correlationErrorKgM3: {
    value: 0.5,
    basis: 'published',
    source: 'AFRL reference fuels against API MPMS 11.1'
  },
  defaultDensityDoubtKgM3: {
    value: 40,
    basis: 'commonPractice',
    source: 'grade limits widened by temperature'
  },
  gaugeErrorPercentOfFull: { value: 1, basis: 'commonPractice', source: 'no source' },
  gaugeCorrelation: {
    value: 0,
    basis: 'commonPractice',
    source: 'widest: arrival and departure independent'
  },
  groundBurnDoubtPercent: { value: 50, basis: 'commonPractice', source: 'a rate times minutes' },
  unknownGroundMinutes: {
    value: 30,
    basis: 'commonPractice',
    source: 'between gauge readings, not recorded'
  },
  defuelledErrorPercent: {
    value: 1,
    basis: 'commonPractice',
    source: 'meter and density of the receiving vehicle'
  },
  coverageFactor: { value: 2, basis: 'published', source: 'JCGM 100:2008, 6.2' }
};

const valueOf = (key: keyof UncertaintySettings): number => uncertaintyDefaults[key].value;

/** The defaults as settings. */
export const defaultUncertainty: UncertaintySettings = {
  meterErrorPercent: valueOf('meterErrorPercent'),
  hydrometerReproducibilityKgM3: valueOf('hydrometerReproducibilityKgM3'),
  densitometerReproducibilityKgM3: valueOf('densitometerReproducibilityKgM3'),
  inLineErrorKgM3: valueOf('inLineErrorKgM3'),
  certificateDoubtKgM3: valueOf('certificateDoubtKgM3'),
  temperatureErrorC: valueOf('temperatureErrorC'),
  sharedTemperatureDoubtC: valueOf('sharedTemperatureDoubtC'),
  missingSampleTemperatureDoubtC: valueOf('missingSampleTemperatureDoubtC'),
  missingMeterTemperatureDoubtC: valueOf('missingMeterTemperatureDoubtC'),
  correlationErrorKgM3: valueOf('correlationErrorKgM3'),
  defaultDensityDoubtKgM3: valueOf('defaultDensityDoubtKgM3'),
  gaugeErrorPercentOfFull: valueOf('gaugeErrorPercentOfFull'),
  gaugeCorrelation: valueOf('gaugeCorrelation'),
  groundBurnDoubtPercent: valueOf('groundBurnDoubtPercent'),
  unknownGroundMinutes: valueOf('unknownGroundMinutes'),
  defuelledErrorPercent: valueOf('defuelledErrorPercent'),
  coverageFactor: valueOf('coverageFactor')
};
