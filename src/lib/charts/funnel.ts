import { formatCount, formatNumber, type NumberForm } from './format.ts';
import { figure, words, type MarkKind, type Twin } from './twin.ts';

export interface FunnelPoint {
  key: string;
  label: string;
  /** What the limits narrow with: a count, or an expected number. */
  size: number;
  /** A rate, or observed over expected. */
  value: number;
  observed: number;
  expected: number;
  n: number;
  /** How many of those observed belong to a part told apart, such as suspected slips. */
  split: number;
  /** Lower and upper limit at this point, one pair for each set of limits, in their order. */
  bounds: readonly (readonly [number, number])[];
  mark: MarkKind;
  word: string;
}

/** A pair of limit curves over the size. */
export interface FunnelLimit {
  key: string;
  /** Such as "95 %". */
  label: string;
  curve: readonly { size: number; lower: number; upper: number }[];
  /** Short dashes: the pair that allows for over-dispersion. */
  short?: boolean;
}

export interface FunnelWords {
  item: string;
  n: string;
  observed: string;
  expected: string;
  split: string;
  value: string;
  /** After the value; empty for a ratio. */
  unit: string;
  form: NumberForm;
  /** Under the axis of sizes. */
  size: string;
  /** At the line all are held against. */
  target: string;
}

const EXPECTED = { decimals: 1, missing: 'none' };

/** A point in one line of words. */
export function funnelLine(point: FunnelPoint, names: FunnelWords): string {
  const value = formatNumber(point.value, { missing: 'none', ...names.form });
  const unit = names.unit === '' ? '' : `\u2009${names.unit}`;
  const counted = (count: number, word: string) => `${formatCount(count)} ${word.toLowerCase()}`;
  const split = point.split > 0 ? `, ${counted(point.split, names.split)} among them` : '';
  const expected = `${formatNumber(point.expected, EXPECTED)} ${names.expected.toLowerCase()}`;
  return (
    `${point.label}: ${names.value} ${value}${unit}; ${counted(point.observed, names.observed)}${split}, ` +
    `${expected}; ${counted(point.n, names.n)}; ${point.word}`
  );
}

/** The table twin of a funnel: one row a point, its own limits beside it. */
export function funnelTwin(
  data: readonly FunnelPoint[],
  limits: readonly FunnelLimit[],
  names: FunnelWords,
  caption: string
): Twin {
  const value = (of: number) => figure(of, formatNumber(of, { missing: 'none', ...names.form }));
  const unit = names.unit === '' ? {} : { unit: names.unit };
  return {
    caption,
    columns: [
      { key: 'item', label: names.item },
      { key: 'n', label: names.n, kind: 'number' },
      { key: 'observed', label: names.observed, kind: 'number' },
      { key: 'split', label: names.split, kind: 'number' },
      { key: 'expected', label: names.expected, kind: 'number' },
      { key: 'value', label: names.value, ...unit, kind: 'number' },
      ...limits.flatMap((limit) => [
        { key: `${limit.key}-lower`, label: `${limit.label} from`, ...unit, kind: 'number' as const },
        { key: `${limit.key}-upper`, label: `${limit.label} to`, ...unit, kind: 'number' as const }
      ]),
      { key: 'mark', label: 'Mark' }
    ],
    rows: data.map((point) => ({
      key: point.key,
      cells: [
        words(point.label),
        figure(point.n, formatCount(point.n)),
        figure(point.observed, formatCount(point.observed)),
        figure(point.split, formatCount(point.split)),
        figure(point.expected, formatNumber(point.expected, EXPECTED)),
        value(point.value),
        ...limits.flatMap((_, index) => [
          value(point.bounds[index]?.[0] ?? NaN),
          value(point.bounds[index]?.[1] ?? NaN)
        ]),
        { text: point.word, mark: point.mark }
      ]
    }))
  };
}

/** Least distance between two numbers under the axis, px. */
const TICK_GAP_PX = 46;

/** Sizes to number under the axis, 1, 2, 5, 10 ... and 0, as many as have room. */
export function sizeTicks(largest: number, place: (size: number) => number): number[] {
  const round: number[] = [0];
  for (let ten = 1; ten <= largest; ten *= 10) {
    for (const step of [1, 2, 5]) if (step * ten <= largest) round.push(step * ten);
  }
  // From the largest down: the far end of the axis is the one that would be left bare.
  const kept: number[] = [];
  for (const size of round.toReversed()) {
    const last = kept.at(-1);
    if (last === undefined || place(last) - place(size) >= TICK_GAP_PX) kept.push(size);
  }
  return kept.toReversed();
}
