import { density15, densityAt, volumeCorrectionFactor } from '#lib/core/density/index.ts';
import { indexOf } from '#lib/core/reconciliation/index.ts';
import { toCanonical } from '#lib/core/units/index.ts';
import { causeCodes, causeFigures } from '../codes.ts';
import type { CauseEvidence } from '../evidence.ts';
import { carried, fuelTerm } from '../fuel.ts';
import type { CauseOptions } from '../options.ts';
import type { CauseProposals } from '../proposals.ts';
import { asTyped, type Reading } from '../reading.ts';
import { weigh } from '../weigh.ts';

const defaultDensity = indexOf(causeCodes, 'defaultDensity');
const density15AsObserved = indexOf(causeCodes, 'density15AsObserved');
const fahrenheitAsCelsius = indexOf(causeCodes, 'fahrenheitAsCelsius');
const netInGross = indexOf(causeCodes, 'netInGross');
const density = indexOf(causeFigures, 'density');
const temperature = indexOf(causeFigures, 'temperature');
const volume = indexOf(causeFigures, 'volume');

/** The temperature at which the observed density was taken; one serves for both. */
const sampleOf = (evidence: CauseEvidence): number =>
  Number.isFinite(evidence.sampleTemperatureC) ? evidence.sampleTemperatureC : evidence.meterTemperatureC;

const meterOf = (evidence: CauseEvidence): number =>
  Number.isFinite(evidence.meterTemperatureC) ? evidence.meterTemperatureC : evidence.sampleTemperatureC;

/** The density at 15 C that stands beside the observed one. */
const statedOf = (evidence: CauseEvidence): number =>
  Number.isFinite(evidence.ticketDensity15KgM3)
    ? evidence.ticketDensity15KgM3
    : evidence.certificateDensity15KgM3;

/** Gives the volume another density; the mass is as reconciled where the density is. */
function withDensity(reading: Reading, densityKgM3: number, evidence: CauseEvidence): void {
  const isSame = densityKgM3 === evidence.densityAtMeterKgM3;
  reading.meteredMassKg = isSame ? evidence.meteredMassKg : (evidence.volumeL * densityKgM3) / 1000;
  reading.figure = density;
  reading.figureValue = densityKgM3;
}

/** How likely the densities and temperatures are as typed. */
function typedTerm(evidence: CauseEvidence, options: CauseOptions): number {
  const typed15 = density15(evidence.observedDensityKgM3, sampleOf(evidence), options.edition);
  return fuelTerm(typed15, evidence.sampleTemperatureC, evidence.meterTemperatureC, evidence, options);
}

/** Spread of the logarithm of what fuels weigh at the meter, about the default. */
const fuelVariance = 0.02 ** 2;

/** The default typed for a density that nobody measured. */
function weighDefault(evidence: CauseEvidence, options: CauseOptions, out: CauseProposals): void {
  const { observedDensityKgM3, certificateDensity15KgM3 } = evidence;
  const typedKgM3 = Number.isFinite(observedDensityKgM3) ? observedDensityKgM3 : evidence.ticketDensity15KgM3;
  if (typedKgM3 !== options.defaultDensityKgM3) return;
  const reading = asTyped(out.reading, defaultDensity, evidence);
  reading.signs = 1 / options.chance.densityIsDefault;
  const meterC = meterOf(evidence);
  const truthKgM3 = densityAt(
    certificateDensity15KgM3,
    Number.isFinite(meterC) ? meterC : 15,
    options.edition
  );
  if (Number.isFinite(truthKgM3)) {
    withDensity(reading, truthKgM3, evidence);
    const { sampleTemperatureC, meterTemperatureC } = evidence;
    const behind = fuelTerm(
      certificateDensity15KgM3,
      sampleTemperatureC,
      meterTemperatureC,
      evidence,
      options
    );
    if (Number.isFinite(observedDensityKgM3)) reading.signs *= behind / typedTerm(evidence, options);
  } else reading.extraVariance = fuelVariance;
  weigh(evidence, options, out);
}

/** A density at 15 C written as if observed: the same as the ticket's or the certificate's though it was hot or cold. */
function weighBasis(evidence: CauseEvidence, options: CauseOptions, out: CauseProposals): void {
  const { observedDensityKgM3, sampleTemperatureC, meterTemperatureC } = evidence;
  const meterC = meterOf(evidence);
  if (!(Math.abs(meterC - 15) > 3) || !Number.isFinite(observedDensityKgM3)) return;
  const isCopy = Math.abs(observedDensityKgM3 - statedOf(evidence)) < 0.05;
  const reading = asTyped(out.reading, density15AsObserved, evidence);
  withDensity(reading, densityAt(observedDensityKgM3, meterC, options.edition), evidence);
  const behind = fuelTerm(observedDensityKgM3, sampleTemperatureC, meterTemperatureC, evidence, options);
  reading.signs = behind / typedTerm(evidence, options);
  if (isCopy) reading.signs /= options.chance.densityEqualsTicket15;
  weigh(evidence, options, out);
}

/** Both temperatures, the sample's or the meter's. */
const fahrenheitWays: readonly (readonly [sample: boolean, meter: boolean])[] = [
  [true, true],
  [true, false],
  [false, true]
];

function weighFahrenheit(evidence: CauseEvidence, options: CauseOptions, out: CauseProposals): void {
  const { sampleTemperatureC, meterTemperatureC, observedDensityKgM3 } = evidence;
  const isObserved = Number.isFinite(observedDensityKgM3);
  const typedKgM3 = isObserved ? observedDensityKgM3 : statedOf(evidence);
  const typed = isObserved
    ? typedTerm(evidence, options)
    : fuelTerm(typedKgM3, sampleTemperatureC, meterTemperatureC, evidence, options);
  for (const [isSample, isMeter] of fahrenheitWays) {
    const sampleC = isSample ? toCanonical('fahrenheit', sampleTemperatureC) : sampleTemperatureC;
    const meterC = isMeter ? toCanonical('fahrenheit', meterTemperatureC) : meterTemperatureC;
    const usedC = Number.isFinite(sampleC) ? sampleC : meterC;
    // A way that changes nothing, or only what is not there, is none.
    if ((isSample && !Number.isFinite(sampleC)) || (isMeter && !Number.isFinite(meterC) && !isSample))
      continue;
    const fuel15 = isObserved ? density15(typedKgM3, usedC, options.edition) : typedKgM3;
    const atMeter = isObserved
      ? carried(typedKgM3, sampleC, meterC, options.edition)
      : densityAt(typedKgM3, meterC, options.edition);
    const reading = asTyped(out.reading, fahrenheitAsCelsius, evidence);
    withDensity(reading, atMeter, evidence);
    reading.figure = temperature;
    reading.figureValue = isSample ? sampleC : meterC;
    reading.share = 1 / fahrenheitWays.length;
    reading.signs = fuelTerm(fuel15, sampleC, meterC, evidence, options) / typed;
    weigh(evidence, options, out);
  }
}

/** Net and gross volume: one typed in both fields, or each in the other's. */
function weighNet(evidence: CauseEvidence, options: CauseOptions, out: CauseProposals): void {
  const { netVolumeL, volumeL, densityAtMeterKgM3 } = evidence;
  const meterC = meterOf(evidence);
  const fuel15 = Number.isFinite(evidence.observedDensityKgM3)
    ? density15(evidence.observedDensityKgM3, sampleOf(evidence), options.edition)
    : statedOf(evidence);
  const factor = volumeCorrectionFactor(fuel15, meterC, options.edition);
  const toleranceL = 1 + 0.0005 * volumeL;
  // Where net and gross are nearly the same nothing can be told from them.
  if (!(Math.abs(factor - 1) * volumeL > 2 * toleranceL)) return;
  const isEqual = Math.abs(netVolumeL - volumeL) <= 0.5;
  const isSwapped = Math.abs(netVolumeL * factor - volumeL) <= toleranceL;
  if (!isEqual && !isSwapped) return;
  const signs = 1 / options.chance.netEqualsGross;
  const grossL = isEqual ? volumeL / factor : netVolumeL;
  const reading = asTyped(out.reading, netInGross, evidence);
  reading.volumeL = grossL;
  reading.meteredMassKg = (grossL * densityAtMeterKgM3) / 1000;
  reading.signs = signs;
  reading.share = isEqual ? 0.5 : 1;
  reading.figure = volume;
  reading.figureValue = grossL;
  weigh(evidence, options, out);
  if (!isEqual) return;
  const reverse = asTyped(out.reading, netInGross, evidence);
  reverse.meteredMassKg = (volumeL * densityAtMeterKgM3) / 1000;
  reverse.signs = signs;
  reverse.share = 0.5;
  weigh(evidence, options, out);
}

/** Densities, temperatures and volumes on the wrong basis. */
export function weighDensity(evidence: CauseEvidence, options: CauseOptions, out: CauseProposals): void {
  weighDefault(evidence, options, out);
  weighBasis(evidence, options, out);
  weighFahrenheit(evidence, options, out);
  weighNet(evidence, options, out);
}
