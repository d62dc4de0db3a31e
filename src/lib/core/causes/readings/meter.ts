import { indexOf } from '#lib/core/reconciliation/index.ts';
import { causeCodes, causeFigures } from '../codes.ts';
import type { CauseEvidence } from '../evidence.ts';
import type { CauseOptions } from '../options.ts';
import type { CauseProposals } from '../proposals.ts';
import { asTyped } from '../reading.ts';
import { powerOfTen, digitCount } from '../typed-number.ts';
import { fuelDensityOf, fuelVarianceOf } from '../fuel.ts';
import { weigh } from '../weigh.ts';

const meterNotReset = indexOf(causeCodes, 'meterNotReset');
const meterRollOver = indexOf(causeCodes, 'meterRollOver');
const meterReadingsSwapped = indexOf(causeCodes, 'meterReadingsSwapped');
const volume = indexOf(causeFigures, 'volume');

/** Weighs another volume of the delivery. */
function weighVolume(
  cause: number,
  volumeL: number,
  share: number,
  signs: number,
  copied: number,
  evidence: CauseEvidence,
  options: CauseOptions,
  out: CauseProposals
): void {
  if (!(volumeL > 0)) return;
  const reading = asTyped(out.reading, cause, evidence);
  reading.meteredMassKg = (volumeL * fuelDensityOf(evidence)) / 1000;
  reading.volumeL = volumeL;
  reading.extraVariance = fuelVarianceOf(evidence);
  reading.share = share;
  reading.signs = signs;
  reading.copied = copied;
  reading.figure = volume;
  const typedPerLitre = evidence.meteredTyped / evidence.volumeL;
  reading.figureValue = volumeL * (Number.isFinite(typedPerLitre) ? typedPerLitre : 1);
  weigh(evidence, options, out);
}

/** Three ways in which the delivery before ends up in this one. */
function weighNotReset(evidence: CauseEvidence, options: CauseOptions, out: CauseProposals): void {
  const { volumeL, meterStartL, meterStopL, previousMeterStopL, previousVolumeL } = evidence;
  const { chance } = options;
  const share = 1 / 3;
  if (meterStartL > 0 && Math.abs(volumeL - meterStopL) <= 0.5)
    weighVolume(
      meterNotReset,
      meterStopL - meterStartL,
      share,
      1 / chance.volumeEqualsMeterStop,
      0,
      evidence,
      options,
      out
    );
  if (meterStartL < previousMeterStopL - 0.5 && meterStopL > previousMeterStopL)
    weighVolume(
      meterNotReset,
      meterStopL - previousMeterStopL,
      share,
      1 / chance.meterStartsBeforePreviousStop,
      0.9,
      evidence,
      options,
      out
    );
  if (previousVolumeL > 0 && volumeL > previousVolumeL)
    weighVolume(meterNotReset, volumeL - previousVolumeL, share, 1, 0.1, evidence, options, out);
}

/** A register that ran through zero, or readings typed the wrong way round. */
function weighBackwards(evidence: CauseEvidence, options: CauseOptions, out: CauseProposals): void {
  const backL = evidence.meterStartL - evidence.meterStopL;
  if (!(backL > 0)) return;
  const signs = 1 / options.chance.meterRunsBackwards;
  const registerL = Number.isFinite(evidence.meterRegisterL)
    ? evidence.meterRegisterL
    : powerOfTen(digitCount(evidence.meterStartL));
  weighVolume(meterRollOver, registerL - backL, 1, signs, 0, evidence, options, out);
  weighVolume(meterReadingsSwapped, backL, 1, signs, 0, evidence, options, out);
}

/** What the meter's own readings explain. */
export function weighMeter(evidence: CauseEvidence, options: CauseOptions, out: CauseProposals): void {
  weighNotReset(evidence, options, out);
  weighBackwards(evidence, options, out);
}
