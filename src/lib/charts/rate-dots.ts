import { formatCount, formatPercent, formatPercentInterval } from './format.ts';
import { figure, words, type MarkKind, type Twin } from './twin.ts';

/** How often something happened in a group, with its interval. */
export interface RateDatum {
  key: string;
  label: string;
  /** Fractions: 0.043 for 4.3 %. NaN where there is nothing to divide by. */
  rate: number;
  low: number;
  high: number;
  events: number;
  n: number;
  /** Part of `events` that is split off beside it. */
  split?: number;
  mark: MarkKind;
  /** The mark in words: "outside", "too few to say". */
  word: string;
}

/** The names of what a rate counts, for the drawing, the readout and the twin. */
export interface RateWords {
  group: string;
  rate: string;
  events: string;
  n: string;
  /** What is split off, such as "suspected slips"; no column without it. */
  split?: string;
}

const MISSING = { missing: 'none' };

/** The counts beside a row: "31 of 412", and the split where it is not zero. */
export function rateNote(datum: RateDatum, names: RateWords): string {
  const counts = `${formatCount(datum.events)} of ${formatCount(datum.n)}`;
  if (names.split === undefined || datum.split === undefined || datum.split === 0) return counts;
  return `${counts}, ${formatCount(datum.split)} ${names.split}`;
}

/** A datum in one line of words, as read out. */
export function rateLine(datum: RateDatum, names: RateWords): string {
  const interval = formatPercentInterval(datum.low, datum.high, MISSING);
  return `${datum.label}: ${formatPercent(datum.rate, MISSING)}, interval ${interval}; ${rateNote(datum, names)}; ${datum.word}`;
}

/** The table twin of a rate chart: one row a group, in the order drawn. */
export function rateTwin(data: readonly RateDatum[], names: RateWords, caption: string): Twin {
  const split = names.split;
  return {
    caption,
    columns: [
      { key: 'group', label: names.group },
      { key: 'rate', label: names.rate, unit: '%', kind: 'number' },
      { key: 'low', label: 'Interval from', unit: '%', kind: 'number' },
      { key: 'high', label: 'to', unit: '%', kind: 'number' },
      { key: 'events', label: names.events, kind: 'number' },
      ...(split === undefined ? [] : [{ key: 'split', label: `of which ${split}`, kind: 'number' as const }]),
      { key: 'n', label: names.n, kind: 'number' },
      { key: 'mark', label: 'Mark' }
    ],
    rows: data.map((datum) => ({
      key: datum.key,
      cells: [
        words(datum.label),
        percentCell(datum.rate),
        percentCell(datum.low),
        percentCell(datum.high),
        figure(datum.events, formatCount(datum.events)),
        ...(split === undefined ? [] : [figure(datum.split ?? 0, formatCount(datum.split ?? 0))]),
        figure(datum.n, formatCount(datum.n)),
        { text: datum.word, mark: datum.mark }
      ]
    }))
  };
}

function percentCell(fraction: number) {
  return figure(fraction, formatPercent(fraction, MISSING).replace('\u2009%', ''));
}
