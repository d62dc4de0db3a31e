import { density15, densityAt, type Edition } from '#lib/core/density/index.ts';
import { normalDensity } from './densities.ts';
import type { CauseEvidence } from './evidence.ts';
import type { CauseOptions } from './options.ts';

/** Middle of what jet fuel weighs, and the spread of its logarithm: half width 4 % of a rectangle. */
const middleKgM3 = 805;
const middleVariance = 0.04 ** 2 / 3;

/** What any kerosine weighs at any temperature it is pumped at. Common practice, no source. */
export const isFuelDensity = (densityKgM3: number): boolean => densityKgM3 >= 700 && densityKgM3 <= 900;

/**
 * Whether a mass is that of the litres times pounds in a litre: 745 to 862 kg/m3 is 1.64 to 1.90 lb/L. As kg in a
 * litre it is no fuel.
 */
export const isPoundsPerLitre = (massKg: number, volumeL: number): boolean =>
  massKg / volumeL >= 1.64 && massKg / volumeL <= 1.9;

/** Density at the meter, or the middle of what fuel weighs where it is unknown or no fuel. */
export const fuelDensityOf = (evidence: CauseEvidence): number =>
  isFuelDensity(evidence.densityAtMeterKgM3) ? evidence.densityAtMeterKgM3 : middleKgM3;

/** Variance of the logarithm of the same. */
export const fuelVarianceOf = (evidence: CauseEvidence): number =>
  isFuelDensity(evidence.densityAtMeterKgM3) ? 0 : middleVariance;

/** Density at the meter for a density observed at the sample's temperature; one temperature serves for both. */
export function carried(observedKgM3: number, sampleC: number, meterC: number, edition: Edition): number {
  if (!Number.isFinite(sampleC) || !Number.isFinite(meterC) || sampleC === meterC) return observedKgM3;
  return densityAt(density15(observedKgM3, sampleC, edition), meterC, edition);
}

/** Spread of fuel about its certificate, and of fuels about each other, kg/m3. Common practice, no source. */
const certificateSpreadKgM3 = 1.5;
const fuelsMeanKgM3 = 803;
const fuelsSpreadKgM3 = 14;

/** One density in a batch that is another fuel's or mistyped, anywhere in some 200 kg/m3. */
const otherShare = 0.03;
const otherDensity = 1 / 200;

/** One temperature in some hundreds is out of the range of weather. */
const outOfWeather = 0.005;

const weatherTerm = (temperatureC: number, options: CauseOptions): number =>
  temperatureC > options.hottestC || temperatureC < options.coldestC ? outOfWeather : 1;

/** How likely a density at 15 C and two temperatures are, beside the certificate where there is one. */
export function fuelTerm(
  density15KgM3: number,
  sampleC: number,
  meterC: number,
  evidence: CauseEvidence,
  options: CauseOptions
): number {
  const certificateKgM3 = evidence.certificateDensity15KgM3;
  let fuel = otherShare * otherDensity;
  if (Number.isFinite(density15KgM3)) {
    fuel +=
      (1 - otherShare) *
      (Number.isFinite(certificateKgM3)
        ? normalDensity(density15KgM3 - certificateKgM3, certificateSpreadKgM3)
        : normalDensity(density15KgM3 - fuelsMeanKgM3, fuelsSpreadKgM3));
  }
  return fuel * weatherTerm(sampleC, options) * weatherTerm(meterC, options);
}
