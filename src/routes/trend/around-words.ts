import type { PairedDatum, PairedWords } from '#lib/charts/paired-dots.ts';
import type { BeforeAfterAnswer } from '#lib/data/questions/index.ts';
import { sideWords } from '#lib/data/words/index.ts';
import { formatCount, formatInterval, formatNumber } from '#lib/ui/format.ts';

/** A comparison that could be made. */
export type Sides = Extract<BeforeAfterAnswer, { estimable: true }>;

/** Partners with fewer refuellings on a side are not drawn: their dot would say nothing. */
const fewestDrawn = 5;
/** A comparison of scatters needs so many on each side. */
const fewestCompared = 100;
/** Chance below which two scatters are said to differ. */
const clear = 0.01;

export const pairedWords: PairedWords = {
  item: 'With',
  first: 'before',
  second: 'after',
  value: 'Mean discrepancy',
  unit: '%',
  form: { decimals: 2, signed: true },
  n: 'refuellings'
};

/** Partners large enough to draw, those with most refuellings first. */
export function partnerData(sides: Sides): PairedDatum[] {
  return sides.partners
    .filter(({ nBefore, nAfter }) => Math.min(nBefore, nAfter) >= fewestDrawn)
    .sort((p, q) => q.nBefore + q.nAfter - p.nBefore - p.nAfter)
    .map((partner) => ({
      key: partner.name,
      label: partner.name,
      first: partner.beforePercent,
      second: partner.afterPercent,
      n: partner.nBefore + partner.nAfter
    }));
}

/** How far the level moved, in a sentence. */
export function levelSentence(sides: Sides): string {
  const form = { decimals: 2, signed: true };
  const by = formatNumber(sides.differencePercent, form);
  const interval = formatInterval(sides.lowerPercent, sides.upperPercent, form);
  const isMoved = sides.lowerPercent > 0 || sides.upperPercent < 0;
  const side = isMoved ? `towards “${sideWords(sides.differencePercent)}”` : 'not told from none';
  return `Level: moved by ${by} % (interval ${interval}), ${side}.`;
}

/** What the scatter did, in a sentence. */
export function scatterSentence(sides: Sides): string {
  const form = { decimals: 2 };
  const isFew = Math.min(sides.nBefore, sides.nAfter) < fewestCompared;
  const isOther = sides.scatterChance < clear;
  const verdict = isFew
    ? 'too few to tell apart'
    : isOther
      ? sides.scatterRatio < 1
        ? 'narrower'
        : 'wider'
      : 'not told apart';
  return `Scatter: ${formatNumber(sides.scatterBefore, form)} % before, ${formatNumber(sides.scatterAfter, form)} % after, ${formatNumber(sides.scatterRatio, form)} times (interval ${formatInterval(sides.scatterLower, sides.scatterUpper, form)}); ${verdict}.`;
}

/** What the comparison rests on. */
export function countSentence(sides: Sides, partners: string): string {
  const alone = sides.aloneBefore + sides.aloneAfter;
  const left = [
    ...(alone > 0 ? [`${formatCount(alone)} with others left out`] : []),
    ...(sides.wild > 0 ? [`${formatCount(sides.wild)} too wild to count`] : [])
  ];
  return `${formatCount(sides.nBefore)} refuellings before and ${formatCount(sides.nAfter)} after with ${formatCount(sides.partners.length)} ${partners} that are there on both sides${left.length > 0 ? `; ${left.join(', ')}` : ''}.`;
}
