import type { CauseCode, CauseEvidence } from '#lib/core/causes/index.ts';
import { kilogramsPerPound, litresPerImperialGallon, litresPerUsGallon } from '#lib/core/units/index.ts';
import { noiseKg, type Papers, scatter } from './world.ts';

/** Log of gauge over metered under each fault that has a factor. */
function factorLogs(densityKgL: number): (readonly [CauseCode, number])[] {
  const factors: (readonly [CauseCode, number])[] = [
    ['poundsAsKilograms', 1 / kilogramsPerPound],
    ['kilogramsAsPounds', kilogramsPerPound],
    ['kilogramsAsLitres', 1 / densityKgL],
    ['litresAsKilograms', densityKgL],
    ['usGallonsAsLitres', litresPerUsGallon],
    ['litresAsUsGallons', 1 / litresPerUsGallon],
    ['imperialGallonsAsLitres', litresPerImperialGallon],
    ['litresAsImperialGallons', 1 / litresPerImperialGallon],
    ['usGallonsAsImperial', litresPerUsGallon / litresPerImperialGallon],
    ['imperialGallonsAsUs', litresPerImperialGallon / litresPerUsGallon],
    ['usGallonsAsKilograms', litresPerUsGallon * densityKgL],
    ['cubicMetresAsLitres', 1000],
    ['litresAsCubicMetres', 0.001],
    ['decimalShift', 10],
    ['decimalShift', 100],
    ['decimalShift', 0.1],
    ['decimalShift', 0.01],
    ['duplicateTicket', 0.5]
  ];
  return factors.map(([code, factor]) => [code, Math.log(factor)] as const);
}

/** Other values of a typed whole number: one digit changed, or two neighbours swapped. */
function otherValues(value: number, isTransposed: boolean): number[] {
  const digits = String(value).split('');
  const values: number[] = [];
  digits.forEach((digit, at) => {
    if (isTransposed) {
      const swapped = [...digits];
      swapped[at] = digits[at + 1] ?? digit;
      if (at + 1 < digits.length) swapped[at + 1] = digit;
      values.push(Number(swapped.join('')));
    } else
      for (let other = 0; other <= 9; other++) values.push(Number(digits.with(at, String(other)).join('')));
  });
  return values.filter((other) => other !== value && other > 0);
}

/** Log ratios that the other digit slip would leave if it were undone in any of the three typed figures. */
function digitLogs(papers: Papers, evidence: CauseEvidence, isTransposed: boolean): number[] {
  const { meteredMassKg, gaugeUpliftKg } = evidence;
  const volumes = otherValues(papers.volumeL, isTransposed).map((value) =>
    Math.log(gaugeUpliftKg / (meteredMassKg * (value / papers.volumeL)))
  );
  const arrivals = otherValues(papers.arrivalKg, isTransposed).map((value) =>
    Math.log((gaugeUpliftKg - value + papers.arrivalKg) / meteredMassKg)
  );
  const departures = otherValues(papers.departureKg, isTransposed).map((value) =>
    Math.log((gaugeUpliftKg + value - papers.departureKg) / meteredMassKg)
  );
  return [...volumes, ...arrivals, ...departures];
}

/**
 * Whether a slip moved its record 6 standard deviations away from where it was and from every look-alike. A slip
 * that leaves no ratio (a half is missing) has no look-alike among the factors. A missing ticket that nobody has
 * and a planned figure look the same as a gauge fault of any size, so they never are; nor is a gauge reading with
 * a shifted decimal mark, which moves the uplift by no factor (the table counts it under slips all the same).
 */
export function isSeparate(
  code: CauseCode,
  papers: Papers,
  clean: CauseEvidence,
  typed: CauseEvidence,
  densityKgL: number
): boolean {
  if (code === 'plannedAsGauge' || (code === 'ticketMissing' && Number.isNaN(papers.strayTicketKg)))
    return false;
  const isGauge =
    typed.arrivalFuelKg !== clean.arrivalFuelKg || typed.departureFuelKg !== clean.departureFuelKg;
  if (code === 'decimalShift' && isGauge) return false;
  const before = Math.log(clean.gaugeUpliftKg / clean.meteredMassKg);
  const moved = Math.log(typed.gaugeUpliftKg / typed.meteredMassKg) - before;
  if (!Number.isFinite(moved)) return true;
  const sixSd = 6 * Math.hypot(scatter, noiseKg / papers.trueMassKg);
  if (Math.abs(moved) <= sixSd) return false;
  const isNear = ([rival, log]: readonly [CauseCode, number]): boolean =>
    rival !== code && Math.abs(moved - log) <= sixSd;
  if (factorLogs(densityKgL).some(isNear)) return false;
  const isNone = (isTransposed: boolean): boolean =>
    !digitLogs(papers, typed, isTransposed).some((log) => Math.abs(log) <= sixSd);
  if (code === 'singleDigit') return isNone(true);
  if (code === 'transposedDigits') return isNone(false);
  return true;
}
