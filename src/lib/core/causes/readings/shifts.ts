import { indexOf } from '#lib/core/reconciliation/index.ts';
import { causeCodes } from '../codes.ts';
import type { CauseEvidence } from '../evidence.ts';
import type { CauseOptions } from '../options.ts';
import type { CauseProposals } from '../proposals.ts';
import { asTyped } from '../reading.ts';
import { replaceFigure, typedFigure, typedFigures, volume } from '../typed-figure.ts';
import { typingVariance } from '../typed-number.ts';
import { weigh } from '../weigh.ts';

const decimalShift = indexOf(causeCodes, 'decimalShift');

/**
 * Shifts and how often each is the one; they add up to 1 over the volume and two gauges. One place is commoner than
 * two, and a gauge reading of the wrong length is seen at once. Common practice, no source.
 */
const volumeShifts: readonly (readonly [shift: number, share: number])[] = [
  [10, 0.25],
  [0.1, 0.25],
  [100, 0.125],
  [0.01, 0.125]
];
const gaugeShifts: readonly (readonly [shift: number, share: number])[] = [
  [10, 0.0625],
  [0.1, 0.0625]
];

/** Decimal mark of one typed figure, one or two places off. */
export function weighShifts(evidence: CauseEvidence, options: CauseOptions, out: CauseProposals): void {
  for (const figure of typedFigures) {
    const typed = typedFigure(figure, evidence);
    if (!(typed > 0)) continue;
    for (const [shift, share] of figure === volume ? volumeShifts : gaugeShifts) {
      const reading = asTyped(out.reading, decimalShift, evidence);
      reading.share = share;
      replaceFigure(reading, figure, typed, typed * shift, evidence);
      if (figure === volume) reading.extraVariance = typingVariance(typed);
      weigh(evidence, options, out);
    }
  }
}
