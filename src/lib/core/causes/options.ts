import type { Edition } from '#lib/core/density/index.ts';
import type { CauseCode } from './codes.ts';

/** What is assumed when a cause is looked for: all settings. */
export interface CauseOptions {
  readonly edition: Edition;
  /** How often each cause was confirmed, plus the start (Dirichlet counts). */
  readonly priorCounts: Readonly<Record<CauseCode, number>>;
  readonly unknownCount: number;
  readonly nothingWrongCount: number;
  /** A cause is named from this posterior on, and only if its residual is below so many standard deviations. */
  readonly nameFrom: number;
  readonly nameWithinSd: number;
  /** Posterior from which a cause is listed among those that fit. */
  readonly listFrom: number;
  /** Scatter of a record whose tail and meter have none of their own yet. */
  readonly relativeScatter: number;
  readonly noiseKg: number;
  /** Where causes are worth looking for. */
  readonly wildSd: number;
  readonly wildFloorKg: number;
  /** The default people type for a density. */
  readonly defaultDensityKgM3: number;
  readonly hottestC: number;
  readonly coldestC: number;
  /** Presetting stops the flow within about so much of the order (standard deviation). */
  readonly presetScatterKg: number;
  /** Share of refuellings where the order was changed, by about so much of the uplift. */
  readonly orderChangedShare: number;
  readonly orderChange: number;
  /** How often each coincidence happens with nothing wrong. */
  readonly chance: Chances;
  readonly slip: SlipRule;
}

/** How often a sign of a fault appears without it. Common practice, no source: guesses to one digit. */
export interface Chances {
  /** Arrival fuel equal to the previous departure fuel: refuelled twice without flying. */
  readonly arrivalUnchanged: number;
  readonly volumeEqualsMeterStop: number;
  readonly meterStartsBeforePreviousStop: number;
  readonly meterRunsBackwards: number;
  readonly netEqualsGross: number;
  readonly densityIsDefault: number;
  readonly densityEqualsTicket15: number;
  readonly sameVolumeTwice: number;
  readonly otherTailOpposite: number;
  readonly strayTicket: number;
  readonly unbalanced: number;
  /** Both gauge figures whole numbers of the type's step though they are pounds. */
  readonly likeSteps: number;
  /** More fuel than the tanks hold, less than none. */
  readonly impossible: number;
  /** A figure of this or of the neighbouring refuelling that is itself wrong. */
  readonly witnessWrong: number;
}

/** When a record that no cause was named for counts as a suspected slip all the same. */
export interface SlipRule {
  /** Gauge over metered, or its inverse, beyond which no gauge or meter fault is known. */
  readonly grossRatio: number;
  /** The discrepancy must also be above this, and above this share of the capacity where it is known. */
  readonly grossFloorKg: number;
  readonly grossShareOfCapacity: number;
}

const oneEach: Readonly<Record<CauseCode, number>> = {
  poundsAsKilograms: 1,
  kilogramsAsPounds: 1,
  kilogramsAsLitres: 1,
  litresAsKilograms: 1,
  litresTimesPoundsPerLitre: 1,
  usGallonsAsLitres: 1,
  litresAsUsGallons: 1,
  imperialGallonsAsLitres: 1,
  litresAsImperialGallons: 1,
  usGallonsAsImperial: 1,
  imperialGallonsAsUs: 1,
  usGallonsAsKilograms: 1,
  cubicMetresAsLitres: 1,
  litresAsCubicMetres: 1,
  defaultDensity: 1,
  densityUnit: 1,
  decimalShift: 1,
  transposedDigits: 1,
  singleDigit: 1,
  staleArrival: 1,
  wrongTail: 1,
  duplicateTicket: 1,
  ticketMissing: 1,
  meterNotReset: 1,
  meterRollOver: 1,
  meterReadingsSwapped: 1,
  netInGross: 1,
  density15AsObserved: 1,
  fahrenheitAsCelsius: 1,
  defuelSign: 1,
  plannedAsGauge: 1,
  gaugeReadingsSwapped: 1,
  oneTank: 1
};

/**
 * The options before anyone has confirmed a cause. Counts of 1, of 2 for the unknown, name from 0.9 within 3
 * standard deviations: common practice in robust statistics (contamination model of Box & Tiao 1968, Biometrika
 * 55:119, from memory). Fifty for nothing wrong, since one record in some tens has a slip. The gross ratio lies
 * above the two largest gauge faults published, as seen in an uplift (TS-LBB 2005: 950 kg shown for 600, 1.58;
 * 9V-SVC 2014: 80.5 t for 121.5, 1 / 1.51), and a gauge that is off by a constant shows the uplift rightly.
 */
export const defaultCauseOptions: CauseOptions = {
  edition: '1980',
  priorCounts: oneEach,
  unknownCount: 2,
  nothingWrongCount: 50,
  nameFrom: 0.9,
  nameWithinSd: 3,
  listFrom: 0.05,
  relativeScatter: 0.012,
  noiseKg: 60,
  wildSd: 4,
  wildFloorKg: 100,
  defaultDensityKgM3: 800,
  hottestC: 45,
  coldestC: -45,
  presetScatterKg: 75,
  orderChangedShare: 0.2,
  orderChange: 0.15,
  chance: {
    arrivalUnchanged: 0.02,
    volumeEqualsMeterStop: 0.001,
    meterStartsBeforePreviousStop: 0.02,
    meterRunsBackwards: 0.002,
    netEqualsGross: 0.001,
    densityIsDefault: 0.005,
    densityEqualsTicket15: 0.01,
    sameVolumeTwice: 0.002,
    otherTailOpposite: 0.05,
    strayTicket: 0.1,
    unbalanced: 0.002,
    likeSteps: 0.2,
    impossible: 0.001,
    witnessWrong: 0.05
  },
  slip: { grossRatio: 2.5, grossFloorKg: 500, grossShareOfCapacity: 0.1 }
};
