import {
  moments,
  normalTwoSided,
  offsetOrScale,
  oneChange,
  type Estimated
} from '#lib/core/statistics/index.ts';
import { toCanonical } from '#lib/core/units/index.ts';
import type { CauseCode, GroupCauseCode } from './codes.ts';

/** What a group of records would fit. Proposes, never corrects. */
export interface GroupCause {
  readonly cause: CauseCode | GroupCauseCode;
  /** Records it rests on. */
  readonly n: number;
  /** The figure that speaks for it, by cause: see each function. */
  readonly size: Estimated;
}

/** Records from which a group has a cause named. */
export const fewestForGroupCause = 50;

/** Standard errors from which a sign counts: about one false name in 15,000 tests of a sound group. */
const clearFrom = 4;
const isClear = ({ value, error }: Estimated): boolean => Math.abs(value) > clearFrom * error;

/** Share of the records that must bear a fault before the whole group is said to. Common practice, no source. */
const leastShare = 0.25;

/**
 * Density at 15 C typed as observed, or net volume typed as gross: the discrepancy goes with the expansion of the
 * fuel, one for one where every record bears it and in proportion where some do. `expansionPercent` is 100 ln VCF,
 * below zero where hot; `ownPercent` 100 ln(gauge / metered) less the aircraft's effects. Size: share of the records
 * that would bear it, 1 for all.
 *
 * A ratio of two effects of temperature has one look-alike each way, gauges that drift with the season at one
 * station alone; it is left to the reader.
 */
export function temperatureCause(
  expansionPercent: ArrayLike<number>,
  ownPercent: ArrayLike<number>,
  weight: ArrayLike<number>
): GroupCause | null {
  const line = offsetOrScale(expansionPercent, ownPercent, weight);
  if (!line.estimable || line.n < fewestForGroupCause || !isClear(line.scale)) return null;
  const share = Math.abs(line.scale.value);
  // More than one for one is no such thing, but for the doubt of the slope.
  if (share < leastShare || share - 2 * line.scale.error > 1.25) return null;
  return {
    cause: line.scale.value > 0 ? 'density15AsObserved' : 'netInGross',
    n: line.n,
    size: { value: share, error: line.scale.error }
  };
}

/** A constant below this is nobody's work, kg. Common practice, no source. */
const leastBurnKg = 20;

/**
 * Ground burn left out: at one place the gauges show less by a constant, whatever the uplift, and hardly anyone
 * writes the burn there. `ownKg`: discrepancy less the aircraft's effects; `burnRecordedShare`: of these records.
 * Size: the constant, kg.
 */
export function groundBurnCause(
  massKg: ArrayLike<number>,
  ownKg: ArrayLike<number>,
  weight: ArrayLike<number>,
  burnRecordedShare: number
): GroupCause | null {
  const line = offsetOrScale(massKg, ownKg, weight);
  if (!line.estimable || line.n < fewestForGroupCause || burnRecordedShare > leastShare) return null;
  if (!isClear(line.offset) || line.offset.value > -leastBurnKg) return null;
  return { cause: 'groundBurnOmitted', n: line.n, size: line.offset };
}

/** Half of the densities of a place are one and the same value. Common practice, no source. */
const repeatedShare = 0.5;

/** A default typed for the density. Size: share of the densities that are the default to the last digit. */
export function defaultDensityCause(
  densitiesKgM3: ArrayLike<number>,
  defaultKgM3: number
): GroupCause | null {
  let n = 0;
  let same = 0;
  for (let k = 0; k < densitiesKgM3.length; k++) {
    const value = densitiesKgM3[k] ?? NaN;
    if (!Number.isFinite(value)) continue;
    n++;
    if (value === defaultKgM3) same++;
  }
  const share = same / n;
  if (n < fewestForGroupCause || share < repeatedShare) return null;
  return { cause: 'defaultDensity', n, size: { value: share, error: Math.sqrt((share * (1 - share)) / n) } };
}

/**
 * Fahrenheit typed as Celsius by a whole place: a good part of the temperatures is out of the range of weather, and
 * nearly all would be in it as Fahrenheit. Size: share out of range.
 */
export function fahrenheitCause(
  temperaturesC: ArrayLike<number>,
  hottestC: number,
  coldestC: number
): GroupCause | null {
  const present = Array.from(temperaturesC).filter(Number.isFinite);
  const isWeather = (value: number) => value <= hottestC && value >= coldestC;
  const out = present.filter((value) => !isWeather(value)).length;
  const asFahrenheit = present.filter((value) => isWeather(toCanonical('fahrenheit', value))).length;
  const share = out / present.length;
  if (present.length < fewestForGroupCause || share < leastShare) return null;
  if (asFahrenheit < 0.95 * present.length) return null;
  const error = Math.sqrt((share * (1 - share)) / present.length);
  return { cause: 'fahrenheitAsCelsius', n: present.length, size: { value: share, error } };
}

/** A step below the limit usual between fuel and certificate is no other batch, kg/m3. */
const leastStepKgM3 = 3;
/** Means of so many records in the order of time are looked at, and half of them must lie on either side. */
const recordsAMean = 10;
const fewestMeans = 8;
const rareChange = 1e-4;

/**
 * The certificate of another batch: density at 15 C less the certificate's steps by several kg/m3 and then stays.
 * Values in the order of time. Size: the step, kg/m3.
 */
export function certificateCause(differencesKgM3: ArrayLike<number>): GroupCause | null {
  const present = Array.from(differencesKgM3).filter(Number.isFinite);
  const means: number[] = [];
  for (let k = 0; k + recordsAMean <= present.length; k += recordsAMean)
    means.push(moments(present.slice(k, k + recordsAMean)).mean);
  if (present.length < fewestForGroupCause || means.length < fewestMeans) return null;
  const changes = means.slice(1).map((value, k) => value - (means[k] ?? NaN));
  const sigma = moments(changes).standardDeviation / Math.SQRT2;
  if (!(sigma > 0)) return null;
  const change = oneChange(Float64Array.from(means), sigma);
  if (!change.estimable || change.pValue > rareChange) return null;
  const step = change.meanAfter - change.meanBefore;
  const before = moments(means.slice(0, change.index));
  const after = moments(means.slice(change.index));
  const error = Math.hypot(
    before.standardDeviation / Math.sqrt(before.n),
    after.standardDeviation / Math.sqrt(after.n)
  );
  const size = { value: step, error };
  // A level that wanders is no step: of a straight drift either half spreads by 0.29 of the difference of the two.
  const isSteady = Math.max(before.standardDeviation, after.standardDeviation) < Math.abs(step) / 4;
  if (Math.abs(step) < leastStepKgM3 || !isClear(size) || !isSteady) return null;
  return { cause: 'wrongCertificate', n: present.length, size };
}

/** What one aircraft shows at one station, or one vehicle with one aircraft: its own part of the discrepancy, %. */
export interface AtPlace {
  readonly n: number;
  readonly mean: number;
}

/** Places where it was met often enough, and at how many of them it was off to the same side. */
export interface SameSide {
  readonly places: number;
  readonly same: number;
}

const fewestAtPlace = 10;
const fewestPlaces = 3;

export function sameSide(effect: number, at: readonly AtPlace[]): SameSide {
  const places = at.filter(({ n }) => n >= fewestAtPlace);
  return { places: places.length, same: places.filter(({ mean }) => mean * effect > 0).length };
}

/**
 * A gauge or a meter that is off: its own effect is clear and it goes the same way wherever, or whichever, it meets.
 * Size: the effect, %. Null where that cannot be seen at three places.
 */
export function instrumentCause(
  cause: 'gaugeBias' | 'meterBias',
  effect: Estimated,
  n: number,
  seen: SameSide
): GroupCause | null {
  if (n < fewestForGroupCause || seen.places < fewestPlaces || !isClear(effect)) return null;
  // Sides as by the toss of a coin say that it does not go with the instrument.
  const z = (2 * seen.same - seen.places) / Math.sqrt(seen.places);
  const isOneSided = seen.same === seen.places || (z > 0 && normalTwoSided(z) < 0.05);
  return isOneSided ? { cause, n, size: effect } : null;
}
