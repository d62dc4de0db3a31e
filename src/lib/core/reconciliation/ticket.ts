import { densityAt, volumeCorrectionFactor } from '#lib/core/density/index.ts';
import { estimated, markBits, measured, notReconcilable, reasonBits } from './bits.ts';
import type { Method } from './method.ts';
import { caseOf, resolveDensity } from './ticket-density.ts';
import { clearTicketResult, type TicketInput, type TicketResult } from './ticket-structs.ts';
import { settleTicketUncertainty } from './ticket-uncertainty.ts';
import { resolveVolume, volumesAgree } from './ticket-volume.ts';

const estimateBits =
  reasonBits.temperatureMissing |
  reasonBits.meterTemperatureMissing |
  reasonBits.defaultDensity |
  reasonBits.meterRollOver;

const netBaseC = (input: TicketInput): number =>
  Number.isFinite(input.netBaseTemperatureC) ? input.netBaseTemperatureC : 15;

/** Mass from a net volume: its base temperature decides which density belongs to it. */
function settleNetMass(input: TicketInput, method: Method, out: TicketResult): void {
  if (!Number.isFinite(input.netBaseTemperatureC)) out.marks |= markBits.netBaseAssumed;
  if (out.densityCase === caseOf.defaultDensity) {
    out.meteredMassKg = (input.netVolumeL * out.densityAtMeterKgM3) / 1000;
    return;
  }
  if (!Number.isFinite(out.density15KgM3)) {
    if (out.densityCase !== caseOf.none) out.reasons |= reasonBits.density15Missing;
    return;
  }
  const densityKgM3 = densityAt(out.density15KgM3, netBaseC(input), method.edition);
  if (!Number.isFinite(densityKgM3)) {
    out.reasons |= reasonBits.temperatureOutsideRange;
    return;
  }
  out.densityCase = caseOf.netVolume;
  out.meteredMassKg = (input.netVolumeL * densityKgM3) / 1000;
  out.volume15L = (1000 * out.meteredMassKg) / out.density15KgM3;
}

/** Mass from the volume at the meter. */
function settleGrossMass(out: TicketResult): void {
  out.meteredMassKg = (out.volumeL * out.densityAtMeterKgM3) / 1000;
  out.volume15L = (1000 * out.meteredMassKg) / out.density15KgM3;
}

/** What a net volume says about the volume at the meter beside it. */
function compareNet(input: TicketInput, method: Method, out: TicketResult): void {
  if (!Number.isFinite(input.netVolumeL) || !Number.isFinite(out.densityAtMeterKgM3)) return;
  const toBase = volumeCorrectionFactor(out.density15KgM3, netBaseC(input), method.edition);
  const toMeter = out.densityAtMeterKgM3 / out.density15KgM3;
  out.netDifferenceL = input.netVolumeL - (out.volumeL * toMeter) / toBase;
  if (Number.isFinite(out.netDifferenceL) && !volumesAgree(out.netDifferenceL, out.volumeL, method)) {
    out.marks |= markBits.netDisagreesWithGross;
  }
}

/**
 * The metered mass of one ticket and everything said about it on the way: density case, densities, comparisons,
 * quality, reasons and marks. Fills `out` and allocates nothing.
 */
export function reconcileTicket(input: TicketInput, method: Method, out: TicketResult): void {
  clearTicketResult(out);
  resolveVolume(input, method, out);
  resolveDensity(input, method, out);
  if ((out.reasons & (reasonBits.volumeNegative | reasonBits.amountOutsideRange)) === 0) {
    const isNet = out.densityCase === caseOf.netVolume || !Number.isFinite(out.volumeL);
    if (isNet && Number.isFinite(input.netVolumeL)) settleNetMass(input, method, out);
    else settleGrossMass(out);
    compareNet(input, method, out);
  }
  settleTicketUncertainty(input, method, out);
  if (!Number.isFinite(out.meteredMassKg)) out.quality = notReconcilable;
  else out.quality = (out.reasons & estimateBits) !== 0 ? estimated : measured;
}
