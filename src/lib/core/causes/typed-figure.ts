import { indexOf } from '#lib/core/reconciliation/index.ts';
import { causeFigures } from './codes.ts';
import type { CauseEvidence } from './evidence.ts';
import { type Reading, scaleMetered } from './reading.ts';
import { decimalsOf, powerOfTen } from './typed-number.ts';

export const volume = indexOf(causeFigures, 'volume');
const arrivalFuel = indexOf(causeFigures, 'arrivalFuel');
const departureFuel = indexOf(causeFigures, 'departureFuel');
/** The figures a person types that decide the discrepancy. */
export const typedFigures: readonly number[] = [volume, arrivalFuel, departureFuel];

/** A mistyped figure is seldom copied to where the same quantity stands again. */
const copiedWithDigit = 0.05;

/** The figure as typed, in its own unit; NaN where it is missing. */
export function typedFigure(figure: number, evidence: CauseEvidence): number {
  if (figure === volume) return evidence.meteredTyped;
  const kg = figure === arrivalFuel ? evidence.arrivalFuelKg : evidence.departureFuelKg;
  const typed = kg / evidence.gaugeUnitKg;
  // Pounds brought to kilograms and back differ in the last bits.
  return Math.round(typed * 1e6) / 1e6;
}

/** Lowest place of a figure that can hold a digit: a gauge shows no more than its step. */
export function lowestPlace(figure: number, evidence: CauseEvidence): number {
  if (figure === volume || !Number.isFinite(evidence.gaugeStepKg)) return 0;
  const typed = typedFigure(figure, evidence);
  const step = (evidence.gaugeStepKg / evidence.gaugeUnitKg) * powerOfTen(decimalsOf(typed));
  let place = 0;
  while (powerOfTen(place + 1) <= step * 1.000001) place++;
  return place;
}

/** Puts another value of one figure into the reading. */
export function replaceFigure(
  reading: Reading,
  figure: number,
  typed: number,
  value: number,
  evidence: CauseEvidence
): void {
  reading.copied = copiedWithDigit;
  reading.figure = figure;
  reading.figureValue = value;
  if (figure === volume) {
    scaleMetered(reading, value / typed);
    return;
  }
  const changeKg = (value - typed) * evidence.gaugeUnitKg;
  if (figure === arrivalFuel) {
    reading.arrivalFuelKg += changeKg;
    reading.gaugeUpliftKg -= changeKg;
  } else {
    reading.departureFuelKg += changeKg;
    reading.gaugeUpliftKg += changeKg;
  }
}
