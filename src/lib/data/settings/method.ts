/** Choices that change masses, not only verdicts. */
export interface MethodChoices {
  /** Tables for density and volume between temperatures: API Std 2540 (1980) or API MPMS 11.1 (2004). */
  readonly densityEdition: '1980' | '2004';
  /** Density assumed where none is given, kg/m³; null: such records are not reconcilable. */
  readonly defaultDensityKgM3: number | null;
  /** Tickets of one tail at one station that end within this time are one refuelling. */
  readonly joinMinutes: number;
  /** Whether verdicts and rates count estimated records too. */
  readonly countEstimated: boolean;
  readonly uncertainty: UncertaintyChoices;
}

/** Inputs to the uncertainty of one record; JCGM 100 adds them in quadrature. */
export interface UncertaintyChoices {
  /** Maximum permissible error of the measuring system, % (Directive 2014/32/EU Annex VII, class 0.5; that aircraft refuelling is class 0.5 is from memory). */
  readonly meterClassPercent: number;
  /** Reproducibility of the density reading, kg/m³ (ASTM D1298 hydrometer, from memory). */
  readonly densityReproducibilityKgM3: number;
  /** Doubt between sample and meter temperature, °C either way (common practice, no source). */
  readonly temperatureDoubtC: number;
  /** Residual of the volume correction tables, kg/m³ either way (computed from published fuel densities). */
  readonly correlationResidualKgM3: number;
  /** Gauge error as a share of full scale, % (common practice, no source). */
  readonly gaugeFullScalePercent: number;
  /** Correlation of the two gauge readings of one refuelling. */
  readonly gaugeCorrelation: number;
}

export const defaultMethod: MethodChoices = {
  densityEdition: '1980',
  defaultDensityKgM3: null,
  joinMinutes: 90,
  countEstimated: false,
  uncertainty: {
    meterClassPercent: 0.5,
    densityReproducibilityKgM3: 1.2,
    temperatureDoubtC: 2,
    correlationResidualKgM3: 0.5,
    gaugeFullScalePercent: 1,
    gaugeCorrelation: 0
  }
};
