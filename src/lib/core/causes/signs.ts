import { bitOf } from '#lib/core/reconciliation/index.ts';
import type { CauseEvidence } from './evidence.ts';
import { isFuelDensity, isPoundsPerLitre } from './fuel.ts';
import type { CauseOptions } from './options.ts';

/** Signs of a fault in a single record that matter even where the discrepancy is small. The index is the bit. */
export const causeSigns = [
  'densityNoFuel',
  'massIsPoundsPerLitre',
  'temperatureOutOfWeather',
  'unbalanced',
  'aboveCapacity',
  'meterRunsBackwards',
  'volumeIsMeterStop',
  'sameVolumeTwice',
  'defuelledNegative',
  'arrivalAbovePrevious',
  'gaugeFell',
  'onOneSide'
] as const;
export type CauseSign = (typeof causeSigns)[number];

const bits = {
  densityNoFuel: bitOf(causeSigns, 'densityNoFuel'),
  massIsPoundsPerLitre: bitOf(causeSigns, 'massIsPoundsPerLitre'),
  temperatureOutOfWeather: bitOf(causeSigns, 'temperatureOutOfWeather'),
  unbalanced: bitOf(causeSigns, 'unbalanced'),
  aboveCapacity: bitOf(causeSigns, 'aboveCapacity'),
  meterRunsBackwards: bitOf(causeSigns, 'meterRunsBackwards'),
  volumeIsMeterStop: bitOf(causeSigns, 'volumeIsMeterStop'),
  sameVolumeTwice: bitOf(causeSigns, 'sameVolumeTwice'),
  defuelledNegative: bitOf(causeSigns, 'defuelledNegative'),
  arrivalAbovePrevious: bitOf(causeSigns, 'arrivalAbovePrevious'),
  gaugeFell: bitOf(causeSigns, 'gaugeFell'),
  onOneSide: bitOf(causeSigns, 'onOneSide')
} as const;

function deliverySigns(evidence: CauseEvidence, options: CauseOptions): number {
  const { observedDensityKgM3, sampleTemperatureC, meterTemperatureC } = evidence;
  let signs = 0;
  if (Number.isFinite(observedDensityKgM3) && !isFuelDensity(observedDensityKgM3))
    signs |= bits.densityNoFuel;
  if (isPoundsPerLitre(evidence.recordedUpliftKg, evidence.volumeL)) signs |= bits.massIsPoundsPerLitre;
  if (
    sampleTemperatureC > options.hottestC ||
    sampleTemperatureC < options.coldestC ||
    meterTemperatureC > options.hottestC ||
    meterTemperatureC < options.coldestC
  )
    signs |= bits.temperatureOutOfWeather;
  if (evidence.meterStopL < evidence.meterStartL) signs |= bits.meterRunsBackwards;
  if (evidence.meterStartL > 0 && Math.abs(evidence.volumeL - evidence.meterStopL) <= 0.5)
    signs |= bits.volumeIsMeterStop;
  if (Number.isFinite(evidence.minutesToDuplicate)) signs |= bits.sameVolumeTwice;
  return signs;
}

/** Share of the uplift by which the sides differ where all of it is on one of them, less the noise. */
const oneSidedShare = 0.8;

function gaugeSigns(evidence: CauseEvidence, options: CauseOptions): number {
  const { arrivalFuelKg, departureFuelKg } = evidence;
  let signs = 0;
  const imbalanceKg = Math.abs(evidence.leftAfterKg - evidence.rightAfterKg);
  const noiseKg = Number.isFinite(evidence.noiseKg) ? evidence.noiseKg : options.noiseKg;
  if (imbalanceKg > evidence.imbalanceLimitKg) signs |= bits.unbalanced;
  const isOneSided = imbalanceKg >= oneSidedShare * evidence.gaugeUpliftKg && evidence.gaugeUpliftKg > 0;
  if (isOneSided && imbalanceKg > 3 * noiseKg) signs |= bits.onOneSide;
  if (departureFuelKg > evidence.capacityKg * 1.03) signs |= bits.aboveCapacity;
  if (evidence.defuelledKg < 0) signs |= bits.defuelledNegative;
  if (arrivalFuelKg > evidence.previousDepartureKg * 1.02) signs |= bits.arrivalAbovePrevious;
  if (departureFuelKg < arrivalFuelKg && evidence.meteredMassKg > 0) signs |= bits.gaugeFell;
  return signs;
}

/** Signs of a fault that can stand in a record whose two halves agree; the others then have a harmless reading. */
const decisive =
  bits.densityNoFuel |
  bits.massIsPoundsPerLitre |
  bits.temperatureOutOfWeather |
  bits.aboveCapacity |
  bits.defuelledNegative |
  bits.onOneSide;

/**
 * Whether the signs of a record are worth a search for causes though it is not wild: one that stands whatever the
 * discrepancy, or any where there is no discrepancy to be wild.
 */
export function isWorthLooking(signs: number, evidence: CauseEvidence): boolean {
  const hasBoth = Number.isFinite(evidence.gaugeUpliftKg - evidence.meteredMassKg);
  return hasBoth ? (signs & decisive) !== 0 : signs !== 0;
}

/** The signs of a record as bits of `causeSigns`, 0 for none: where there is one, causes are worth looking for too. */
export function signsOf(evidence: CauseEvidence, options: CauseOptions): number {
  return deliverySigns(evidence, options) | gaugeSigns(evidence, options);
}
