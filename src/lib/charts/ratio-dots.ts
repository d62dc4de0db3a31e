import { formatCount, formatNumber } from './format.ts';
import { figure, words, type MarkKind, type Twin } from './twin.ts';

/** The ratio of two rates with its interval, on a scale of equal factors. */
export interface RatioDatum {
  key: string;
  label: string;
  /** 1 is no difference; NaN where it cannot be formed. */
  ratio: number;
  low: number;
  /** May be infinite where the other side has no event. */
  high: number;
  events: number;
  n: number;
  againstEvents: number;
  againstN: number;
  mark: MarkKind;
  word: string;
}

export interface RatioWords {
  item: string;
  ratio: string;
  events: string;
  n: string;
  against: string;
}

/** A factor in words: two digits that count. */
export function formatFactor(factor: number): string {
  if (factor === Infinity) return 'no upper end';
  if (factor === 0) return '0';
  if (!(factor > 0)) return 'none';
  return formatNumber(factor, { decimals: factor >= 10 ? 0 : factor >= 1 ? 1 : 2 });
}

/** "0.87 to 45", or what is missing of it. */
export function formatFactors(low: number, high: number): string {
  if (Number.isNaN(low) || Number.isNaN(high)) return 'none';
  return high === Infinity ? `${formatFactor(low)} or more` : `${formatFactor(low)} to ${formatFactor(high)}`;
}

/** The counts beside a row: "8 of 4 512". */
export function ratioNote(datum: RatioDatum): string {
  return `${formatCount(datum.events)} of ${formatCount(datum.n)}`;
}

export function ratioLine(datum: RatioDatum, names: RatioWords): string {
  const ratio = Number.isNaN(datum.ratio) ? 'none' : `${formatFactor(datum.ratio)} times`;
  return `${datum.label}: ${ratio}, interval ${formatFactors(datum.low, datum.high)}; ${ratioNote(datum)} ${names.n} ${names.events}, ${names.against} ${formatCount(datum.againstEvents)} of ${formatCount(datum.againstN)}; ${datum.word}`;
}

/** Factors that are written along the scale, from the least whole step below `low` to the one above `high`. */
export function factorSteps(low: number, high: number): number[] {
  const steps = [0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 50, 100];
  const first = Math.max(
    0,
    steps.findLastIndex((step) => step <= low)
  );
  const found = steps.findIndex((step) => step >= high);
  return steps.slice(first, (found < 0 ? steps.length - 1 : found) + 1);
}

/** The steps of a scale that holds every ratio and 1; ends of intervals count as far as a factor of 20 from 1. */
export function factorScale(data: readonly RatioDatum[]): number[] {
  const usable = data.flatMap(({ ratio, low, high }) => [ratio, Math.max(low, 1 / 20), Math.min(high, 20)]);
  const finite = usable.filter((factor) => Number.isFinite(factor) && factor > 0);
  return factorSteps(Math.min(0.5, ...finite), Math.max(2, ...finite));
}

/** The table twin of ratios: one row an item. */
export function ratioTwin(data: readonly RatioDatum[], names: RatioWords, caption: string): Twin {
  return {
    caption,
    columns: [
      { key: 'item', label: names.item },
      { key: 'events', label: names.events, kind: 'number' },
      { key: 'n', label: names.n, kind: 'number' },
      { key: 'againstEvents', label: `${names.against}: ${names.events}`, kind: 'number' },
      { key: 'againstN', label: `${names.against}: ${names.n}`, kind: 'number' },
      { key: 'ratio', label: names.ratio, kind: 'number' },
      { key: 'interval', label: 'Interval 95 %', kind: 'number' },
      { key: 'mark', label: 'Mark' }
    ],
    rows: data.map((datum) => ({
      key: datum.key,
      cells: [
        words(datum.label),
        figure(datum.events, formatCount(datum.events)),
        figure(datum.n, formatCount(datum.n)),
        figure(datum.againstEvents, formatCount(datum.againstEvents)),
        figure(datum.againstN, formatCount(datum.againstN)),
        figure(datum.ratio, formatFactor(datum.ratio)),
        figure(datum.high, formatFactors(datum.low, datum.high)),
        { text: datum.word, mark: datum.mark }
      ]
    }))
  };
}
