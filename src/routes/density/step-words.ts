import type { DensitySeries, DensityStep } from '#lib/data/questions/index.ts';
import { formatCount, formatInterval, formatNumber } from '#lib/ui/format.ts';
import { groupName } from '../rates.ts';
import { dayWords } from '../words.ts';

/** A place as the page names it and as the address keeps it. */
export function placeName({ station, supplier }: DensitySeries): string {
  return `${groupName(station)}, ${groupName(supplier)}`;
}

export function placeKey({ station, supplier }: DensitySeries): string {
  return `${station} ${supplier}`;
}

export const movedWords = {
  moved: 'moved with it',
  unmoved: 'did not move',
  unknown: 'cannot be told'
} as const;

/** The stretch a step lies in. */
export function stepDates({ fromMs, untilMs }: DensityStep): string {
  return fromMs === untilMs
    ? `in the week of ${dayWords(fromMs)}`
    : `${dayWords(fromMs)} to ${dayWords(untilMs)}`;
}

/** How far the discrepancy moved, with its interval. */
export function discrepancyMove({ discrepancy }: DensityStep): string {
  if (!discrepancy.estimable) return 'too few to say';
  const { differencePercent, lowerPercent, upperPercent } = discrepancy;
  const form = { decimals: 2, signed: true };
  return `${formatNumber(differencePercent, form)} (${formatInterval(lowerPercent, upperPercent, form)})`;
}

/** One place in a sentence: its step, and what the discrepancy did. */
export function stepSentence(series: DensitySeries, windowDays: number): string {
  const { step } = series;
  if (step === null) return `${placeName(series)}: too few weeks to look for a step.`;
  if (!step.isClear) return `${placeName(series)}: no step stands out from batches and season.`;
  const by = `${step.byKgM3 > 0 ? 'up' : 'down'} by ${formatNumber(Math.abs(step.byKgM3), { decimals: 1 })} kg/m³`;
  const { discrepancy } = step;
  const counts = discrepancy.estimable
    ? ` ${formatCount(discrepancy.nBefore)} refuellings in the ${windowDays} days before and ${formatCount(discrepancy.nAfter)} after, with the same aircraft.`
    : '';
  const ifWritten = `${formatNumber(step.ifWrittenPercent, { decimals: 2, signed: true })} %`;
  return `${placeName(series)}: density stepped ${by}, ${stepDates(step)}. The discrepancy ${movedWords[step.moved]}: ${discrepancyMove(step)} %; were only the written density another, it would be ${ifWritten}.${counts}`;
}
