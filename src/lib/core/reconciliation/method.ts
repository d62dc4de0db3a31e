import type { Edition } from '#lib/core/density/index.ts';
import { defaultUncertainty, type UncertaintySettings } from './uncertainty-settings.ts';

/** Sizes beyond which a value is marked as unlikely; it is still computed with. */
export interface Plausibility {
  readonly minimumObservedKgM3: number;
  readonly maximumObservedKgM3: number;
  readonly minimumDensity15KgM3: number;
  readonly maximumDensity15KgM3: number;
  readonly minimumTemperatureC: number;
  readonly maximumTemperatureC: number;
  /** Two readings of one volume agree within the larger of these. */
  readonly volumeAgreementL: number;
  readonly volumeAgreementPercent: number;
}

/** The choices that change masses. A change of method recomputes the ledger. */
export interface Method {
  readonly edition: Edition;
  /** Whether a density whose instrument is not stated was read from a glass hydrometer. */
  readonly hydrometerWhenNotStated: boolean;
  /** Whether a ticket without any density is computed with the default one, as estimated. */
  readonly usesDefaultDensity: boolean;
  readonly defaultDensityKgM3: number;
  readonly plausibility: Plausibility;
  readonly uncertainty: UncertaintySettings;
}

/**
 * The method before anyone chooses. 800 kg/m3 is the standard value that EU and CORSIA monitoring rules allow
 * (Dutch Emissions Authority, 2019). Plausible sizes: common practice, no source.
 */
export const defaultMethod: Method = {
  edition: '1980',
  hydrometerWhenNotStated: false,
  usesDefaultDensity: false,
  defaultDensityKgM3: 800,
  plausibility: {
    minimumObservedKgM3: 745,
    maximumObservedKgM3: 870,
    minimumDensity15KgM3: 775,
    maximumDensity15KgM3: 840,
    minimumTemperatureC: -40,
    maximumTemperatureC: 50,
    volumeAgreementL: 1,
    volumeAgreementPercent: 0.1
  },
  uncertainty: defaultUncertainty
};
