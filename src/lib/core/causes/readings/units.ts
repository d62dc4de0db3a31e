import { indexOf } from '#lib/core/reconciliation/index.ts';
import { kilogramsPerPound, litresPerImperialGallon, litresPerUsGallon } from '#lib/core/units/index.ts';
import { type CauseCode, causeCodes, causeFigures } from '../codes.ts';
import type { CauseEvidence } from '../evidence.ts';
import type { CauseOptions } from '../options.ts';
import type { CauseProposals } from '../proposals.ts';
import { asTyped, scaleMetered } from '../reading.ts';
import { typingVariance } from '../typed-number.ts';
import { fuelDensityOf, fuelVarianceOf } from '../fuel.ts';
import { weigh } from '../weigh.ts';

const volume = indexOf(causeFigures, 'volume');
const cause = (code: CauseCode): number => indexOf(causeCodes, code);

/** A whole form is often kept in the wrong unit, so that its other figures agree with the wrong one. */
const copiedWithUnit = 0.5;

/** What multiplies the delivered mass as typed to undo each unit. */
const fixedFactors: readonly (readonly [cause: number, factor: number])[] = [
  [cause('usGallonsAsLitres'), litresPerUsGallon],
  [cause('litresAsUsGallons'), 1 / litresPerUsGallon],
  [cause('imperialGallonsAsLitres'), litresPerImperialGallon],
  [cause('litresAsImperialGallons'), 1 / litresPerImperialGallon],
  [cause('usGallonsAsImperial'), litresPerUsGallon / litresPerImperialGallon],
  [cause('imperialGallonsAsUs'), litresPerImperialGallon / litresPerUsGallon],
  [cause('cubicMetresAsLitres'), 1000],
  [cause('litresAsCubicMetres'), 1 / 1000]
];

/** The same for units that are a density apart, the density in kg/L. */
const densityFactors: readonly (readonly [cause: number, factor: (kgL: number) => number])[] = [
  [cause('kilogramsAsLitres'), (kgL) => 1 / kgL],
  [cause('litresAsKilograms'), (kgL) => kgL],
  [cause('usGallonsAsKilograms'), (kgL) => kgL * litresPerUsGallon]
];

const poundsAsKilograms = cause('poundsAsKilograms');

/** What multiplies arrival, departure and the uplift between them. */
const gaugeFactors: readonly (readonly [cause: number, factor: number])[] = [
  [poundsAsKilograms, kilogramsPerPound],
  [cause('kilogramsAsPounds'), 1 / kilogramsPerPound]
];

/** Whether a figure is a whole number of gauge steps, as what a gauge shows in its own unit always is. */
const isInSteps = (typed: number, step: number): boolean =>
  Math.abs(typed / step - Math.round(typed / step)) * step < 0.01;

/**
 * How much likelier the last digits of both gauge figures are in pounds than in kilograms. Figures in kilograms are
 * whole steps of a gauge that counts in kilograms; in pounds they are so where the gauge counts in a like step of
 * pounds, or by chance. Nothing is said where the step is unknown or as fine as the figures.
 */
function poundsSteps(evidence: CauseEvidence, options: CauseOptions): number {
  const { arrivalFuelKg, departureFuelKg, gaugeStepKg, gaugeUnitKg } = evidence;
  if (gaugeUnitKg !== 1 || !(gaugeStepKg > 1) || !Number.isFinite(arrivalFuelKg + departureFuelKg)) return 1;
  const { likeSteps, witnessWrong } = options.chance;
  const both = likeSteps + (1 - likeSteps) / (gaugeStepKg * gaugeStepKg);
  const areInSteps = isInSteps(arrivalFuelKg, gaugeStepKg) && isInSteps(departureFuelKg, gaugeStepKg);
  return areInSteps ? both / (1 - witnessWrong) : (1 - both) / witnessWrong;
}

function weighMetered(
  index: number,
  factor: number,
  variance: number,
  evidence: CauseEvidence,
  options: CauseOptions,
  out: CauseProposals
): void {
  const reading = scaleMetered(asTyped(out.reading, index, evidence), factor);
  reading.copied = copiedWithUnit;
  reading.extraVariance = variance + typingVariance(evidence.meteredTyped);
  reading.figure = volume;
  reading.figureValue = evidence.meteredTyped * factor;
  weigh(evidence, options, out);
}

/** Units of the delivery and of the gauge. */
export function weighUnits(evidence: CauseEvidence, options: CauseOptions, out: CauseProposals): void {
  for (const [index, factor] of fixedFactors) weighMetered(index, factor, 0, evidence, options, out);
  const kgL = fuelDensityOf(evidence) / 1000;
  const variance = fuelVarianceOf(evidence);
  for (const [index, factorOf] of densityFactors)
    weighMetered(index, factorOf(kgL), variance, evidence, options, out);
  for (const [index, factor] of gaugeFactors) {
    const reading = asTyped(out.reading, index, evidence);
    reading.gaugeUpliftKg *= factor;
    reading.arrivalFuelKg *= factor;
    reading.departureFuelKg *= factor;
    reading.copied = copiedWithUnit;
    if (index === poundsAsKilograms) reading.signs = poundsSteps(evidence, options);
    weigh(evidence, options, out);
  }
}
