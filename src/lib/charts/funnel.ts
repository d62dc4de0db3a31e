import { formatCount, formatNumber } from './format.ts';
import { figure, words, type MarkKind, type Twin } from './twin.ts';

export interface FunnelPoint {
  key: string;
  label: string;
  expected: number;
  observed: number;
  n: number;
  /** Observed over expected. */
  ratio: number;
  /** Lower and upper limit at this point, one pair for each set of limits, in their order. */
  bounds: readonly (readonly [number, number])[];
  mark: MarkKind;
  word: string;
}

/** A pair of limit curves over the expected number. */
export interface FunnelLimit {
  key: string;
  /** Such as "95 %". */
  label: string;
  curve: readonly { expected: number; lower: number; upper: number }[];
  /** Short dashes: the pair that allows for over-dispersion. */
  short?: boolean;
}

export interface FunnelWords {
  item: string;
  n: string;
  observed: string;
  expected: string;
  ratio: string;
}

const RATIO = { decimals: 2, missing: 'none' };
const EXPECTED = { decimals: 1, missing: 'none' };

/** A point in one line of words. */
export function funnelLine(point: FunnelPoint, names: FunnelWords): string {
  return (
    `${point.label}: ${names.ratio} ${formatNumber(point.ratio, RATIO)}; ` +
    `${formatCount(point.observed)} ${names.observed}, ${formatNumber(point.expected, EXPECTED)} ${names.expected}; ` +
    `${formatCount(point.n)} ${names.n}; ${point.word}`
  );
}

/** The table twin of a funnel: one row a point, its own limits beside it. */
export function funnelTwin(
  data: readonly FunnelPoint[],
  limits: readonly FunnelLimit[],
  names: FunnelWords,
  caption: string
): Twin {
  const ratio = (value: number) => figure(value, formatNumber(value, RATIO));
  return {
    caption,
    columns: [
      { key: 'item', label: names.item },
      { key: 'n', label: names.n, kind: 'number' },
      { key: 'observed', label: names.observed, kind: 'number' },
      { key: 'expected', label: names.expected, kind: 'number' },
      { key: 'ratio', label: names.ratio, kind: 'number' },
      ...limits.flatMap((limit) => [
        { key: `${limit.key}-lower`, label: `${limit.label} from`, kind: 'number' as const },
        { key: `${limit.key}-upper`, label: 'to', kind: 'number' as const }
      ]),
      { key: 'mark', label: 'Mark' }
    ],
    rows: data.map((point) => ({
      key: point.key,
      cells: [
        words(point.label),
        figure(point.n, formatCount(point.n)),
        figure(point.observed, formatCount(point.observed)),
        figure(point.expected, formatNumber(point.expected, EXPECTED)),
        ratio(point.ratio),
        ...limits.flatMap((_, index) => [
          ratio(point.bounds[index]?.[0] ?? NaN),
          ratio(point.bounds[index]?.[1] ?? NaN)
        ]),
        { text: point.word, mark: point.mark }
      ]
    }))
  };
}
