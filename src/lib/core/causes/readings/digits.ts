import { indexOf } from '#lib/core/reconciliation/index.ts';
import { causeCodes } from '../codes.ts';
import type { CauseEvidence } from '../evidence.ts';
import type { CauseOptions } from '../options.ts';
import type { CauseProposals } from '../proposals.ts';
import { asTyped } from '../reading.ts';
import { lowestPlace, replaceFigure, typedFigure, typedFigures } from '../typed-figure.ts';
import { decimalsOf, digitAt, digitCount, powerOfTen, wholeOf } from '../typed-number.ts';
import { weigh } from '../weigh.ts';

const transposedDigits = indexOf(causeCodes, 'transposedDigits');
const singleDigit = indexOf(causeCodes, 'singleDigit');
function weighValue(
  cause: number,
  figure: number,
  typed: number,
  value: number,
  share: number,
  evidence: CauseEvidence,
  options: CauseOptions,
  out: CauseProposals
): void {
  const reading = asTyped(out.reading, cause, evidence);
  reading.share = share;
  replaceFigure(reading, figure, typed, value, evidence);
  weigh(evidence, options, out);
}

/** How many other numbers one wrong digit could have come from. */
function singleWays(evidence: CauseEvidence): number {
  let ways = 0;
  for (const figure of typedFigures) {
    const typed = typedFigure(figure, evidence);
    if (typed > 0) ways += 9 * Math.max(0, digitCount(wholeOf(typed)) - lowestPlace(figure, evidence));
  }
  return ways;
}

/** How many others two neighbouring digits that changed places. */
function transposedWays(evidence: CauseEvidence): number {
  let ways = 0;
  for (const figure of typedFigures) {
    const typed = typedFigure(figure, evidence);
    if (!(typed > 0)) continue;
    const whole = wholeOf(typed);
    for (let place = digitCount(whole) - 2; place >= lowestPlace(figure, evidence); place--) {
      if (digitAt(whole, place) !== digitAt(whole, place + 1)) ways++;
    }
  }
  return ways;
}

function weighSingle(evidence: CauseEvidence, options: CauseOptions, out: CauseProposals): void {
  const share = 1 / Math.max(1, singleWays(evidence));
  for (const figure of typedFigures) {
    const typed = typedFigure(figure, evidence);
    if (!(typed > 0)) continue;
    const whole = wholeOf(typed);
    const unit = powerOfTen(decimalsOf(typed));
    for (let place = digitCount(whole) - 1; place >= lowestPlace(figure, evidence); place--) {
      const rest = whole - digitAt(whole, place) * powerOfTen(place);
      for (let digit = 0; digit <= 9; digit++) {
        const value = rest + digit * powerOfTen(place);
        if (value !== whole && value > 0)
          weighValue(singleDigit, figure, typed, value / unit, share, evidence, options, out);
      }
    }
  }
}

function weighTransposed(evidence: CauseEvidence, options: CauseOptions, out: CauseProposals): void {
  const share = 1 / Math.max(1, transposedWays(evidence));
  for (const figure of typedFigures) {
    const typed = typedFigure(figure, evidence);
    if (!(typed > 0)) continue;
    const whole = wholeOf(typed);
    const unit = powerOfTen(decimalsOf(typed));
    for (let place = digitCount(whole) - 2; place >= lowestPlace(figure, evidence); place--) {
      const difference = digitAt(whole, place + 1) - digitAt(whole, place);
      const value = whole - 9 * difference * powerOfTen(place);
      if (difference !== 0 && value > 0)
        weighValue(transposedDigits, figure, typed, value / unit, share, evidence, options, out);
    }
  }
}

/** Digits of one typed figure. The permutation itself is tried, not the nines. */
export function weighDigits(evidence: CauseEvidence, options: CauseOptions, out: CauseProposals): void {
  weighSingle(evidence, options, out);
  weighTransposed(evidence, options, out);
}
