import { formatCount } from './format.ts';
import { figure, words, type Twin } from './twin.ts';

/** A pattern that keeps its meaning in black print: `solid`, `hatch`, `cross`, `dots`, `clear`. */
export type Pattern = 'solid' | 'hatch' | 'cross' | 'dots' | 'clear';

/** One way a record can end, and how it is drawn. */
export interface Fate {
  key: string;
  label: string;
  pattern: Pattern;
}

/** A whole split into parts, one count for each fate in the same order. */
export interface FateDatum {
  key: string;
  label: string;
  counts: readonly number[];
}

export interface FateWords {
  /** What a bar is. */
  item: string;
  /** What is counted. */
  total: string;
}

export interface FatePart {
  fate: Fate;
  count: number;
  /** Counts before this part. */
  from: number;
}

/** The parts of a bar in the order of the fates, those of zero left out. */
export function fateParts(datum: FateDatum, fates: readonly Fate[]): FatePart[] {
  let from = 0;
  const parts: FatePart[] = [];
  fates.forEach((fate, index) => {
    const count = datum.counts[index] ?? 0;
    if (count > 0) parts.push({ fate, count, from });
    from += count;
  });
  return parts;
}

/** All counts of a bar together. */
export function fateTotal(datum: FateDatum): number {
  return datum.counts.reduce((sum, count) => sum + count, 0);
}

/** The count of each fate over all bars. */
export function fateTotals(data: readonly FateDatum[], fates: readonly Fate[]): number[] {
  return fates.map((_, index) => data.reduce((sum, datum) => sum + (datum.counts[index] ?? 0), 0));
}

/** A datum in one line of words. */
export function fateLine(datum: FateDatum, fates: readonly Fate[], names: FateWords): string {
  const parts = fateParts(datum, fates).map(({ fate, count }) => `${formatCount(count)} ${fate.label}`);
  return `${datum.label}: ${formatCount(fateTotal(datum))} ${names.total}: ${parts.join(', ')}`;
}

/** The table twin: one row a bar, one column a fate, their sum last. */
export function fateTwin(
  data: readonly FateDatum[],
  fates: readonly Fate[],
  names: FateWords,
  caption: string
): Twin {
  return {
    caption,
    columns: [
      { key: 'item', label: names.item },
      ...fates.map((fate) => ({ key: fate.key, label: fate.label, kind: 'number' as const })),
      { key: 'total', label: names.total, kind: 'number' }
    ],
    rows: data.map((datum) => ({
      key: datum.key,
      cells: [
        words(datum.label),
        ...fates.map((_, index) => figure(datum.counts[index] ?? 0, formatCount(datum.counts[index] ?? 0))),
        figure(fateTotal(datum), formatCount(fateTotal(datum)))
      ]
    }))
  };
}
