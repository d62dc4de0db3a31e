import { tickStep } from 'd3';
import { decimalsOfStep, formatNumber } from '../format.ts';

/** One line on a dip-rod: fine at each tenth, longer at halves, longest and with its number at the whole steps. */
export interface Graduation {
  value: number;
  level: 'fine' | 'half' | 'whole';
  /** The number beside a whole step; empty on the others. */
  label: string;
}

export interface RodForm {
  /** Least distance between numbers in px; 24 if left out. */
  labelGapPx?: number;
  /** Width of one character of a number in px where numbers stand side by side; 0, the default, where they do not. */
  characterPx?: number;
  /** Writes plus signs. */
  signed?: boolean;
  /** Least distance between fine lines in px; 4 if left out. */
  fineGapPx?: number;
}

/**
 * The graduations of a rod over a domain drawn at a length. Fine lines are a tenth of the numbered step, or a fifth or a
 * half of it where tenths would stand closer than `fineGapPx`.
 *
 * @param lengthPx length of the rod, more than 0
 */
export function graduations(
  domain: readonly [number, number],
  lengthPx: number,
  form: RodForm = {}
): Graduation[] {
  const low = Math.min(...domain);
  const high = Math.max(...domain);
  if (!(high > low) || !(lengthPx > 0)) return [];
  const step = stepOf(low, high, lengthPx, form);
  const parts = partsOfStep((step / (high - low)) * lengthPx, form.fineGapPx ?? 4);
  const decimals = decimalsOfStep(step);
  const first = Math.ceil((low / step) * parts - 1e-9);
  const last = Math.floor((high / step) * parts + 1e-9);
  return Array.from({ length: last - first + 1 }, (_, i) => {
    const index = first + i;
    const value = (index / parts) * step;
    const level = index % parts === 0 ? 'whole' : (index * 2) % parts === 0 ? 'half' : 'fine';
    const label = level === 'whole' ? formatNumber(value, { decimals, signed: form.signed ?? false }) : '';
    return { value, level, label };
  });
}

/** The numbered step: about the gap asked, and wider where the numbers themselves would run into each other. */
function stepOf(low: number, high: number, lengthPx: number, form: RodForm): number {
  const widestCount = Math.max(1, Math.floor(lengthPx / (form.labelGapPx ?? 24)));
  for (let count = widestCount; count > 1; count--) {
    const step = tickStep(low, high, count);
    const label = (value: number) =>
      formatNumber(value, { decimals: decimalsOfStep(step), signed: form.signed ?? false });
    const characters = Math.max(label(low).length, label(high).length);
    const needPx = (characters + 1) * (form.characterPx ?? 0);
    if ((step / (high - low)) * lengthPx >= needPx) return step;
  }
  return tickStep(low, high, 1);
}

function partsOfStep(stepPx: number, fineGapPx: number): number {
  return [10, 5, 2].find((parts) => stepPx / parts >= fineGapPx) ?? 1;
}
