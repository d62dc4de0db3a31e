import { markBits, reasonBits } from './bits.ts';
import type { Method } from './method.ts';
import type { TicketInput, TicketResult } from './ticket-structs.ts';

/** More than the tanks of any airliner hold: a register that seems to have passed zero by more did not. */
const largestUpliftL = 350_000;

/** No register counts so far. Smaller nonsense is computed, so that its ratio can tell what went wrong. */
const largestVolumeL = 1e9;

/** The capacity a register of unknown digits has at least: the power of ten above its reading. */
function registerAbove(readingL: number): number {
  if (!(readingL <= largestVolumeL)) return NaN;
  let register = 10;
  while (register <= readingL) register *= 10;
  return register;
}

/** Meter stop minus start; a register that ran backwards is proposed, and used only where its digits are known. */
function meterVolume(input: TicketInput, out: TicketResult): number {
  const volumeL = input.meterStopL - input.meterStartL;
  if (!(volumeL < 0)) return volumeL;
  const isKnown = Number.isFinite(input.meterRegisterL);
  const proposedL = volumeL + (isKnown ? input.meterRegisterL : registerAbove(input.meterStartL));
  if (proposedL >= 0 && proposedL <= largestUpliftL) out.proposedVolumeL = proposedL;
  return isKnown ? out.proposedVolumeL : NaN;
}

/** Whether two readings of one volume agree within the method's tolerance. */
export function volumesAgree(differenceL: number, volumeL: number, method: Method): boolean {
  const { volumeAgreementL, volumeAgreementPercent } = method.plausibility;
  return Math.abs(differenceL) <= Math.max(volumeAgreementL, (volumeAgreementPercent / 100) * volumeL);
}

/** What the meter readings say about a stated volume. */
function compareWithMeter(input: TicketInput, meterL: number, method: Method, out: TicketResult): void {
  const readingsL = input.meterStopL - input.meterStartL;
  if (!Number.isFinite(readingsL)) return;
  out.meterDifferenceL = out.volumeL - meterL;
  if (!volumesAgree(out.meterDifferenceL, out.volumeL, method))
    out.marks |= markBits.meterDisagreesWithVolume;
}

/** The volume at the metering temperature: as stated, else from the meter. Net volume is not one. */
export function resolveVolume(input: TicketInput, method: Method, out: TicketResult): void {
  const meterL = meterVolume(input, out);
  if (input.grossVolumeL < 0 || input.netVolumeL < 0) {
    out.reasons |= reasonBits.volumeNegative;
  } else if (
    input.grossVolumeL > largestVolumeL ||
    input.netVolumeL > largestVolumeL ||
    meterL > largestVolumeL
  ) {
    out.reasons |= reasonBits.amountOutsideRange;
  } else if (Number.isFinite(input.grossVolumeL)) {
    out.volumeL = input.grossVolumeL;
    compareWithMeter(input, meterL, method, out);
  } else if (Number.isFinite(meterL)) {
    out.volumeL = meterL;
    if (input.meterStopL < input.meterStartL) out.reasons |= reasonBits.meterRollOver;
  } else if (!Number.isFinite(input.netVolumeL)) {
    const runsBackwards = input.meterStopL < input.meterStartL;
    out.reasons |= runsBackwards ? reasonBits.meterRunsBackwards : reasonBits.volumeMissing;
  }
}
