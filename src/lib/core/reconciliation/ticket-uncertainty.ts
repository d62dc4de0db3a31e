import { densitySlopeKgM3PerC } from '#lib/core/density/index.ts';
import { densitometer, inLine } from './bits.ts';
import type { Method } from './method.ts';
import { caseOf } from './ticket-density.ts';
import type { TicketInput, TicketResult } from './ticket-structs.ts';
import type { UncertaintySettings } from './uncertainty-settings.ts';

/** Standard deviation of a rectangular distribution of half width 1. JCGM 100:2008, 4.3.7 (clause from memory). */
export const rectangular = 1 / Math.sqrt(3);

/** Reproducibility is the difference exceeded once in twenty: 2.77 standard deviations. ISO 5725-6, from memory. */
const reproducibility = 1 / 2.77;

const square = (value: number): number => value * value;

/** Variance of the reading of the density itself, (kg/m3)^2. */
function readingVariance(input: TicketInput, settings: UncertaintySettings, out: TicketResult): number {
  const isStated =
    out.densityCase === caseOf.density15 ||
    out.densityCase === caseOf.density15Only ||
    (out.densityCase === caseOf.netVolume && !Number.isFinite(input.observedDensityKgM3));
  if (isStated && !Number.isFinite(input.ticketDensity15KgM3))
    return square(settings.certificateDoubtKgM3 * rectangular);
  if (input.densityMethod === inLine) return square(settings.inLineErrorKgM3 * rectangular);
  if (input.densityMethod === densitometer)
    return square(settings.densitometerReproducibilityKgM3 * reproducibility);
  return square(settings.hydrometerReproducibilityKgM3 * reproducibility);
}

/** Half width of the doubt about temperature, degC, for the density case. */
function temperatureDoubtC(densityCase: number, isObserved: boolean, settings: UncertaintySettings): number {
  if (densityCase === caseOf.oneTemperature) return settings.sharedTemperatureDoubtC;
  if (densityCase === caseOf.noTemperature) return settings.missingSampleTemperatureDoubtC;
  if (densityCase === caseOf.density15Only) return settings.missingMeterTemperatureDoubtC;
  if (densityCase === caseOf.twoTemperatures) return settings.temperatureErrorC * Math.SQRT2;
  return densityCase === caseOf.density15 || isObserved ? settings.temperatureErrorC : 0;
}

/**
 * Standard uncertainty of the density that multiplied the volume, kg/m3, after JCGM 100:2008, 5.1.2: the reading,
 * the doubt about temperature times the density's slope, and how well the tables fit real fuel.
 */
function densityUncertainty(input: TicketInput, method: Method, out: TicketResult): number {
  const settings = method.uncertainty;
  if (out.densityCase === caseOf.none) return NaN;
  if (out.densityCase === caseOf.defaultDensity) return settings.defaultDensityDoubtKgM3 * rectangular;
  const reading = readingVariance(input, settings, out);
  if (out.densityCase === caseOf.inLine) return Math.sqrt(reading);
  const density15 = Number.isFinite(out.density15KgM3) ? out.density15KgM3 : out.densityAtMeterKgM3;
  // A net volume needs no temperature at the meter, so an impossible one must not spoil its uncertainty.
  const isMeterKnown = Number.isFinite(out.densityAtMeterKgM3) && Number.isFinite(input.meterTemperatureC);
  const temperatureC = isMeterKnown ? input.meterTemperatureC : 15;
  const slope = densitySlopeKgM3PerC(density15, temperatureC, method.edition);
  const isObserved = Number.isFinite(input.observedDensityKgM3);
  const temperature = square(slope * temperatureDoubtC(out.densityCase, isObserved, settings) * rectangular);
  return Math.sqrt(reading + temperature + square(settings.correlationErrorKgM3 * rectangular));
}

/** Standard uncertainties of density and metered mass: the relative parts of volume and density in quadrature. */
export function settleTicketUncertainty(input: TicketInput, method: Method, out: TicketResult): void {
  const errorPercent = Number.isFinite(input.meterErrorPercent)
    ? input.meterErrorPercent
    : method.uncertainty.meterErrorPercent;
  out.densityUncertaintyKgM3 = densityUncertainty(input, method, out);
  const densityKgM3 = Number.isFinite(out.densityAtMeterKgM3) ? out.densityAtMeterKgM3 : out.density15KgM3;
  const relative =
    square((errorPercent / 100) * rectangular) + square(out.densityUncertaintyKgM3 / densityKgM3);
  out.massUncertaintyKg = out.meteredMassKg * Math.sqrt(relative);
}
