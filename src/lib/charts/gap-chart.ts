import { formatCount, formatNumber } from './format.ts';
import { figure, words, type MarkKind, type Twin } from './twin.ts';

/** How many went by between one event and the next. */
export interface GapDatum {
  key: string;
  /** When the event that ends the gap was. */
  label: string;
  gap: number;
  /** The stretch since the last event, still running. */
  running?: boolean;
  mark: MarkKind;
  word: string;
}

export interface GapLimit {
  key: string;
  label: string;
  value: number;
}

export interface GapWords {
  event: string;
  /** What is counted between events. */
  gap: string;
}

/** A gap in one line of words. */
export function gapLine(datum: GapDatum, names: GapWords): string {
  const since = datum.running === true ? ' so far' : '';
  return `${datum.label}: ${formatCount(datum.gap)} ${names.gap}${since}; ${datum.word}`;
}

/** The table twin of a gap chart: one row an event, the running stretch last, the limits beside it. */
export function gapTwin(
  data: readonly GapDatum[],
  limits: readonly GapLimit[],
  names: GapWords,
  caption: string
): Twin {
  return {
    caption,
    columns: [
      { key: 'event', label: names.event },
      { key: 'gap', label: names.gap, kind: 'number' },
      ...limits.map((limit) => ({ key: limit.key, label: limit.label, kind: 'number' as const })),
      { key: 'mark', label: 'Mark' }
    ],
    rows: data.map((datum, index) => ({
      key: datum.key,
      cells: [
        { text: datum.running === true ? `${datum.label}, still running` : datum.label, sort: index },
        figure(datum.gap, formatCount(datum.gap)),
        ...limits.map((limit) =>
          figure(limit.value, formatNumber(limit.value, { decimals: 1, missing: '' }))
        ),
        datum.running === true ? words(datum.word) : { text: datum.word, mark: datum.mark }
      ]
    }))
  };
}
