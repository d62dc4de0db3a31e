import type { CauseCode } from '#lib/core/causes/index.ts';
import { densityAt } from '#lib/core/density/index.ts';
import { totalOnBoard } from '#lib/core/reconciliation/index.ts';
import { kilogramsPerPound, litresPerImperialGallon, litresPerUsGallon } from '#lib/core/units/index.ts';
import type { Random } from './random.ts';
import { fuel15Of, noiseKg, type Papers, scatter } from './world.ts';

/** Types one thing wrong; false where the papers do not lend themselves to it. */
type Slip = (papers: Papers, random: Random) => boolean;

/**
 * Figures worked out from the volume follow it half of the time; meter readings are in the volume's unit as
 * often as not.
 */
function setVolume(papers: Papers, random: Random, factor: number, isUnit: boolean): boolean {
  const before = papers.volumeL;
  papers.volumeL = Math.round(before * factor * 100) / 100;
  if (papers.volumeL > 100) papers.volumeL = Math.round(papers.volumeL);
  if (random.chance(0.5)) papers.recordedKg = Math.round(papers.recordedKg * factor);
  if (isUnit && random.chance(0.5)) {
    papers.startL = Math.round(papers.startL * factor);
    papers.stopL = papers.startL + papers.volumeL;
    papers.previousStopL = Math.round(papers.previousStopL * factor);
  }
  if (isUnit || random.chance(0.5)) papers.netVolumeL = Math.round(papers.netVolumeL * factor);
  return papers.volumeL !== before && papers.volumeL > 0;
}

const volumeUnit =
  (factorOf: (papers: Papers) => number): Slip =>
  (papers, random) =>
    setVolume(papers, random, factorOf(papers), true);

const kgL = (papers: Papers): number => densityAt(fuel15Of(papers), papers.meterC, '1980') / 1000;

const gaugeUnit =
  (factor: number): Slip =>
  (papers, random) => {
    papers.arrivalKg = Math.round(papers.arrivalKg * factor);
    papers.departureKg = Math.round(papers.departureKg * factor);
    papers.burnKg = Math.round(papers.burnKg * factor);
    papers.stepKg = 10;
    papers.tanksKg = Math.round(papers.tanksKg * factor);
    papers.leftKg = Math.round(papers.leftKg * factor);
    papers.rightKg = Math.round(papers.rightKg * factor);
    if (random.chance(0.5)) papers.orderedKg = Math.round(papers.orderedKg * factor);
    return true;
  };

/** Replaces the digits of the volume or of one gauge reading. */
function retype(papers: Papers, random: Random, change: (digits: string[], step: number) => void): boolean {
  const which = random.below(3);
  const before = which === 0 ? papers.volumeL : which === 1 ? papers.arrivalKg : papers.departureKg;
  const digits = String(before).split('');
  change(digits, which === 0 ? 1 : papers.stepKg);
  const after = Number(digits.join(''));
  if (after === before || !(after > 0)) return false;
  if (which === 0) setVolume(papers, random, after / before, false);
  else if (which === 1) papers.arrivalKg = after;
  else papers.departureKg = after;
  return true;
}

const transposed: Slip = (papers, random) =>
  retype(papers, random, (digits, step) => {
    const places = digits.length - (String(step).length - 1);
    const at = random.below(Math.max(1, places - 1));
    const [first = '', second = ''] = [digits[at], digits[at + 1]];
    digits[at] = second;
    digits[at + 1] = first;
  });

const singleDigit: Slip = (papers, random) =>
  retype(papers, random, (digits, step) => {
    const at = random.below(Math.max(1, digits.length - (String(step).length - 1)));
    digits[at] = String(random.below(10));
  });

const shifted: Slip = (papers, random) => {
  if (random.chance(0.7)) {
    const shifts = [10, 0.1, 100, 0.01];
    return setVolume(papers, random, shifts[random.below(4)] ?? 10, false);
  }
  const shift = random.chance(0.5) ? 10 : 0.1;
  if (random.chance(0.5)) papers.arrivalKg *= shift;
  else papers.departureKg *= shift;
  return true;
};

const densityUnit: Slip = (papers, random) => {
  const kgM3 = papers.densityKgM3;
  const ways = [
    kgM3 / 1000,
    kgM3 * 1000,
    Math.round((kgM3 / 119.826427) * 1000) / 1000,
    Math.round((kgM3 / 119.826427) * 1000),
    Math.round((141360 / kgM3 - 131.5) * 10) / 10
  ];
  papers.densityKgM3 = ways[random.below(ways.length)] ?? NaN;
  return true;
};

const poundsPerLitre: Slip = (papers, random) => {
  papers.recordedKg = Math.round((papers.volumeL * kgL(papers)) / kilogramsPerPound);
  if (random.chance(0.5)) papers.densityKgM3 = Math.round(papers.densityKgM3 / kilogramsPerPound / 10) * 10;
  return true;
};

const stale: Slip = (papers) => {
  if (!(papers.previousDepartureKg > papers.arrivalKg)) return false;
  papers.arrivalKg = papers.previousDepartureKg;
  return true;
};

/** Tickets of two aircraft side by side end up on each other's refuelling. */
const otherTail: Slip = (papers, random) => {
  const otherKg = Math.min(13000, Math.max(1500, 6400 * Math.exp(0.45 * random.normal())));
  const factor = otherKg / papers.trueMassKg;
  papers.otherTailDiscrepancyKg =
    otherKg * Math.exp(scatter * random.normal()) + noiseKg * random.normal() - papers.trueMassKg;
  papers.volumeL = Math.round(papers.volumeL * factor);
  papers.stopL = papers.startL + papers.volumeL;
  papers.recordedKg = Math.round(papers.recordedKg * factor);
  papers.netVolumeL = Math.round(papers.netVolumeL * factor);
  return true;
};

const duplicate: Slip = (papers, random) => {
  papers.secondVolumeL = papers.volumeL;
  papers.minutesToDuplicate = Math.round(30 * random.uniform());
  return true;
};

const missing: Slip = (papers, random) => {
  const share = 0.15 + 0.7 * random.uniform();
  const massKg = papers.volumeL * kgL(papers);
  papers.volumeL = Math.round(papers.volumeL * share);
  papers.stopL = papers.startL + papers.volumeL;
  papers.netVolumeL = Math.round(papers.netVolumeL * share);
  papers.recordedKg = Math.round(papers.recordedKg * share);
  if (random.chance(0.5)) papers.strayTicketKg = massKg * (1 - share);
  return true;
};

const notReset: Slip = (papers, random) => {
  const beforeL = papers.previousVolumeL;
  const way = random.below(3);
  if (way === 0) {
    papers.startL = beforeL;
    papers.stopL = beforeL + papers.volumeL;
    papers.volumeL = papers.stopL;
  } else if (way === 1) {
    papers.previousStopL = papers.startL;
    papers.startL -= beforeL;
    papers.volumeL += beforeL;
  } else {
    papers.volumeL += beforeL;
    papers.startL = NaN;
    papers.stopL = NaN;
    papers.previousStopL = NaN;
  }
  return true;
};

const rollOver: Slip = (papers, random) => {
  if (!(papers.startL > 0)) return false;
  const registerL = papers.registerL > 0 ? papers.registerL : 1e6;
  papers.startL = Math.round(registerL - papers.volumeL * random.uniform());
  papers.stopL = papers.startL + papers.volumeL - registerL;
  papers.volumeL = NaN;
  papers.netVolumeL = NaN;
  papers.previousStopL = papers.startL;
  return papers.stopL < papers.startL;
};

const readingsSwapped: Slip = (papers) => {
  if (!(papers.startL > 0)) return false;
  [papers.startL, papers.stopL] = [papers.stopL, papers.startL];
  papers.volumeL = NaN;
  papers.netVolumeL = NaN;
  papers.previousStopL = NaN;
  return true;
};

const defuel: Slip = (papers, random) => {
  const amountKg = Math.round((300 + 2500 * random.uniform()) / 10) * 10;
  if (papers.departureKg - amountKg < 500) return false;
  papers.departureKg -= Math.round(amountKg / papers.stepKg) * papers.stepKg;
  papers.defuelledKg = -amountKg;
  papers.nextArrivalKg = NaN;
  papers.orderedBasis = 0;
  papers.tanksKg = papers.leftKg = papers.rightKg = NaN;
  return true;
};

/** The order was changed and more or less delivered, but the old figure stands in the gauge field. */
const planned: Slip = (papers, random) => {
  const changeKg = -Math.log(1 - random.uniform()) * 0.15 * papers.trueMassKg * (random.chance(0.5) ? 1 : -1);
  papers.orderedBasis = totalOnBoard;
  papers.orderedKg = Math.round((papers.departureKg + changeKg) / 100) * 100;
  papers.departureKg = papers.orderedKg;
  return papers.orderedKg > papers.arrivalKg && !(papers.orderedKg > papers.capacityKg);
};

const oneTank: Slip = (papers) => {
  const half = papers.arrivalKg / 2;
  const upliftKg = papers.departureKg - papers.arrivalKg;
  papers.leftKg = half + upliftKg;
  papers.rightKg = half;
  papers.tanksKg = papers.departureKg;
  return true;
};

const fahrenheit: Slip = (papers, random) => {
  const isBoth = random.chance(0.5);
  papers.sampleC = Math.round(papers.sampleC * 1.8 + 32);
  if (isBoth) papers.meterC = Math.round(papers.meterC * 1.8 + 32);
  return true;
};

const gaugesSwapped: Slip = (papers) => {
  [papers.arrivalKg, papers.departureKg] = [papers.departureKg, papers.arrivalKg];
  return papers.arrivalKg > papers.departureKg;
};

/** What can be typed wrong, by the cause that should be found. */
export const slips: Readonly<Partial<Record<CauseCode, Slip>>> = {
  poundsAsKilograms: gaugeUnit(1 / kilogramsPerPound),
  kilogramsAsPounds: gaugeUnit(kilogramsPerPound),
  kilogramsAsLitres: volumeUnit(kgL),
  litresAsKilograms: volumeUnit((papers) => 1 / kgL(papers)),
  litresTimesPoundsPerLitre: poundsPerLitre,
  usGallonsAsLitres: volumeUnit(() => 1 / litresPerUsGallon),
  litresAsUsGallons: volumeUnit(() => litresPerUsGallon),
  imperialGallonsAsLitres: volumeUnit(() => 1 / litresPerImperialGallon),
  litresAsImperialGallons: volumeUnit(() => litresPerImperialGallon),
  usGallonsAsImperial: volumeUnit(() => litresPerImperialGallon / litresPerUsGallon),
  imperialGallonsAsUs: volumeUnit(() => litresPerUsGallon / litresPerImperialGallon),
  usGallonsAsKilograms: volumeUnit((papers) => 1 / litresPerUsGallon / kgL(papers)),
  cubicMetresAsLitres: volumeUnit(() => 0.001),
  litresAsCubicMetres: volumeUnit(() => 1000),
  densityUnit,
  decimalShift: shifted,
  transposedDigits: transposed,
  singleDigit,
  staleArrival: stale,
  wrongTail: otherTail,
  duplicateTicket: duplicate,
  ticketMissing: missing,
  meterNotReset: notReset,
  meterRollOver: rollOver,
  meterReadingsSwapped: readingsSwapped,
  fahrenheitAsCelsius: fahrenheit,
  defuelSign: defuel,
  plannedAsGauge: planned,
  gaugeReadingsSwapped: gaugesSwapped,
  oneTank
};
