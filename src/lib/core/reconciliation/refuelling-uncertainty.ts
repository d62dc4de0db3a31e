import type { Method } from './method.ts';
import type { RefuellingInput, RefuellingResult } from './refuelling-structs.ts';
import { rectangular } from './ticket-uncertainty.ts';
import type { UncertaintySettings } from './uncertainty-settings.ts';

const square = (value: number): number => value * value;

const orZero = (value: number): number => (Number.isFinite(value) ? value : 0);

/**
 * Variance of the difference of two gauge readings, kg^2: each wrong by a share of full scale, less what they
 * share (correlation r), and each rounded to a step (step^2 / 12 twice). JCGM 100:2008, 5.2.2 and F.2.2.1.
 */
function gaugeVariance(input: RefuellingInput, settings: UncertaintySettings): number {
  const reading = (settings.gaugeErrorPercentOfFull / 100) * input.gaugeCapacityKg * rectangular;
  return 2 * square(reading) * (1 - settings.gaugeCorrelation) + square(orZero(input.gaugeStepKg)) / 6;
}

/**
 * Variance of a burn on the ground that was not recorded, where the operator set a rate: a share of what minutes
 * times rate gave, or, where the minutes are missing too and 0 was counted, all that the minutes assumed allow.
 */
function groundBurnVariance(input: RefuellingInput, settings: UncertaintySettings): number {
  if (Number.isFinite(input.groundBurnKg)) return 0;
  const rate = orZero(input.groundBurnRateKgPerMinute);
  const doubtKg = Number.isFinite(input.groundMinutes)
    ? (settings.groundBurnDoubtPercent / 100) * input.groundMinutes * rate
    : settings.unknownGroundMinutes * rate;
  return square(doubtKg * rectangular);
}

/**
 * Standard uncertainties of both halves, the expanded one of the discrepancy and the normalised error
 * (ISO 13528 and ISO/IEC 17043, from memory). NaN where the gauge's capacity is not known.
 */
export function settleRefuellingUncertainty(
  input: RefuellingInput,
  method: Method,
  out: RefuellingResult
): void {
  const settings = method.uncertainty;
  const defuelled = (settings.defuelledErrorPercent / 100) * orZero(input.defuelledKg) * rectangular;
  const gauge = gaugeVariance(input, settings) + groundBurnVariance(input, settings) + square(defuelled);
  out.gaugeUncertaintyKg = Math.sqrt(gauge);
  out.expandedUncertaintyKg = settings.coverageFactor * Math.sqrt(square(out.massUncertaintyKg) + gauge);
  out.normalisedError = out.discrepancyKg / out.expandedUncertaintyKg;
}
