import { density15, densityAt, hydrometerCorrected } from '#lib/core/density/index.ts';
import { hydrometer, inLine, markBits, methodNotStated, reasonBits } from './bits.ts';
import { densityCases, indexOf } from './codes.ts';
import type { Method } from './method.ts';
import type { TicketInput, TicketResult } from './ticket-structs.ts';

export const caseOf = {
  none: indexOf(densityCases, 'none'),
  inLine: indexOf(densityCases, 'inLineAtMeter'),
  twoTemperatures: indexOf(densityCases, 'observedAndMeterTemperature'),
  oneTemperature: indexOf(densityCases, 'observedAtOneTemperature'),
  noTemperature: indexOf(densityCases, 'observedWithoutTemperature'),
  density15: indexOf(densityCases, 'density15AndMeterTemperature'),
  netVolume: indexOf(densityCases, 'netVolumeAndDensity15'),
  density15Only: indexOf(densityCases, 'density15WithoutTemperature'),
  defaultDensity: indexOf(densityCases, 'defaultDensity')
} as const;

/** No petroleum liquid that pours at ambient temperature lies outside: for densities the tables do not see. */
const lightestKgM3 = 600;
const heaviestKgM3 = 1100;

const isPhysical = (densityKgM3: number): boolean =>
  densityKgM3 >= lightestKgM3 && densityKgM3 <= heaviestKgM3;

/** Whether the tables take a temperature at all, asked of a density in the middle of their range. */
const isTemperatureCovered = (temperatureC: number, method: Method): boolean =>
  Number.isFinite(densityAt(800, temperatureC, method.edition));

/** The observed density as the instrument truly showed it: glass corrected where it was glass. */
function observedDensity(
  input: TicketInput,
  temperatureC: number,
  method: Method,
  out: TicketResult
): number {
  const isGlass =
    input.densityMethod === hydrometer ||
    (input.densityMethod === methodNotStated && method.hydrometerWhenNotStated);
  if (!isGlass) return input.observedDensityKgM3;
  out.marks |= markBits.glassCorrected;
  return hydrometerCorrected(input.observedDensityKgM3, temperatureC);
}

/** Takes back a density case that the tables do not cover and says why. */
function refuse(temperatureC: number, method: Method, out: TicketResult): void {
  out.densityCase = caseOf.none;
  out.densityAtMeterKgM3 = NaN;
  out.density15KgM3 = NaN;
  out.reasons |= isTemperatureCovered(temperatureC, method)
    ? reasonBits.densityOutsideRange
    : reasonBits.temperatureOutsideRange;
}

/** Case 1. The density needs no table; its temperature, if any, only serves the 15 C value. */
function fromInLine(input: TicketInput, method: Method, out: TicketResult): void {
  if (!isPhysical(input.observedDensityKgM3)) {
    out.reasons |= reasonBits.densityOutsideRange;
    return;
  }
  out.densityCase = caseOf.inLine;
  out.densityAtMeterKgM3 = input.observedDensityKgM3;
  const temperatureC = Number.isFinite(input.meterTemperatureC)
    ? input.meterTemperatureC
    : input.sampleTemperatureC;
  out.density15KgM3 = density15(input.observedDensityKgM3, temperatureC, method.edition);
}

/** Cases 2 and 3. */
function fromObserved(input: TicketInput, method: Method, out: TicketResult): void {
  const isSampleKnown = Number.isFinite(input.sampleTemperatureC);
  const sampleC = isSampleKnown ? input.sampleTemperatureC : input.meterTemperatureC;
  const observedKgM3 = observedDensity(input, sampleC, method, out);
  out.density15KgM3 = density15(observedKgM3, sampleC, method.edition);
  if (isSampleKnown && Number.isFinite(input.meterTemperatureC)) {
    out.densityCase = caseOf.twoTemperatures;
    out.densityAtMeterKgM3 =
      input.meterTemperatureC === sampleC
        ? observedKgM3
        : densityAt(out.density15KgM3, input.meterTemperatureC, method.edition);
  } else {
    out.densityCase = caseOf.oneTemperature;
    out.marks |= markBits.temperatureShared;
    out.densityAtMeterKgM3 = observedKgM3;
  }
  if (!Number.isFinite(out.density15KgM3)) refuse(sampleC, method, out);
  else if (!Number.isFinite(out.densityAtMeterKgM3)) refuse(input.meterTemperatureC, method, out);
}

/** Case 4: no 15 C value exists, and no glass correction without a temperature. */
function fromObservedAlone(input: TicketInput, out: TicketResult): void {
  if (!isPhysical(input.observedDensityKgM3)) {
    out.reasons |= reasonBits.densityOutsideRange;
    return;
  }
  out.densityCase = caseOf.noTemperature;
  out.densityAtMeterKgM3 = input.observedDensityKgM3;
  out.reasons |= reasonBits.temperatureMissing;
}

/** Cases 6, 5 and 7: a stated density at 15 C. A net volume needs no temperature at the meter. */
function fromStated15(statedKgM3: number, input: TicketInput, method: Method, out: TicketResult): void {
  const hasNet = Number.isFinite(input.netVolumeL);
  const hasTemperature = Number.isFinite(input.meterTemperatureC);
  const neededC = hasNet || !hasTemperature ? 15 : input.meterTemperatureC;
  const neededKgM3 = densityAt(statedKgM3, neededC, method.edition);
  if (!Number.isFinite(neededKgM3)) {
    refuse(neededC, method, out);
    return;
  }
  out.density15KgM3 = statedKgM3;
  if (!Number.isFinite(input.ticketDensity15KgM3)) out.marks |= markBits.certificateDensityUsed;
  if (hasNet) {
    out.densityCase = caseOf.netVolume;
    out.densityAtMeterKgM3 = densityAt(statedKgM3, input.meterTemperatureC, method.edition);
    return;
  }
  out.densityCase = hasTemperature ? caseOf.density15 : caseOf.density15Only;
  out.densityAtMeterKgM3 = neededKgM3;
  if (!hasTemperature) out.reasons |= reasonBits.meterTemperatureMissing;
}

function markImplausible(input: TicketInput, method: Method, out: TicketResult): void {
  const limits = method.plausibility;
  const observedKgM3 = input.observedDensityKgM3;
  if (
    observedKgM3 < limits.minimumObservedKgM3 ||
    observedKgM3 > limits.maximumObservedKgM3 ||
    out.density15KgM3 < limits.minimumDensity15KgM3 ||
    out.density15KgM3 > limits.maximumDensity15KgM3
  ) {
    out.marks |= markBits.densityImplausible;
  }
  if (
    input.sampleTemperatureC < limits.minimumTemperatureC ||
    input.sampleTemperatureC > limits.maximumTemperatureC ||
    input.meterTemperatureC < limits.minimumTemperatureC ||
    input.meterTemperatureC > limits.maximumTemperatureC
  ) {
    out.marks |= markBits.temperatureImplausible;
  }
  if (observedKgM3 === method.defaultDensityKgM3) out.marks |= markBits.densityLooksLikeDefault;
}

/** The density that multiplies the volume, by the first case in the order 1, 2, 3, 6, 5, 4, 7, 8 that applies. */
export function resolveDensity(input: TicketInput, method: Method, out: TicketResult): void {
  const hasObserved = Number.isFinite(input.observedDensityKgM3);
  const hasTemperature =
    Number.isFinite(input.sampleTemperatureC) || Number.isFinite(input.meterTemperatureC);
  const ticketKgM3 = input.ticketDensity15KgM3;
  const certificateKgM3 = input.certificateDensity15KgM3;
  const statedKgM3 = Number.isFinite(ticketKgM3) ? ticketKgM3 : certificateKgM3;
  const hasStated = Number.isFinite(statedKgM3);
  const prefersStated = hasStated && Number.isFinite(input.netVolumeL);
  if (hasObserved && input.densityMethod === inLine) fromInLine(input, method, out);
  else if (hasObserved && hasTemperature) fromObserved(input, method, out);
  else if (hasObserved && !prefersStated) fromObservedAlone(input, out);
  else if (hasStated) fromStated15(statedKgM3, input, method, out);
  else if (method.usesDefaultDensity) {
    out.densityCase = caseOf.defaultDensity;
    out.densityAtMeterKgM3 = method.defaultDensityKgM3;
    out.reasons |= reasonBits.defaultDensity;
  } else out.reasons |= reasonBits.densityMissing;

  const isObserved15 = hasObserved && out.densityCase <= caseOf.noTemperature;
  if (isObserved15) out.densityDifferenceKgM3 = out.density15KgM3 - ticketKgM3;
  if (isObserved15 || Number.isFinite(ticketKgM3))
    out.certificateDifferenceKgM3 = out.density15KgM3 - certificateKgM3;
  markImplausible(input, method, out);
}
