import { median } from 'd3';
import { formatCount, formatNumber, formatPercent, type NumberForm } from './format.ts';
import { figure, words, type Twin } from './twin.ts';

/** A group's counts over bins that all groups share. */
export interface RidgeDatum {
  key: string;
  label: string;
  n: number;
  counts: readonly number[];
}

export interface RidgeWords {
  group: string;
  value: string;
  unit: string;
  form: NumberForm;
  n: string;
}

/** Below this count a shape says more about chance than about the group. */
export const FEWEST_FOR_A_SHAPE = 200;

/**
 * The share that a ridge's full height stands for: the largest share in any bin, but no more than three times the median
 * group's, so that one spike does not flatten the others. Groups too small for a shape do not count. 0 where none is left.
 */
export function fullShare(data: readonly RidgeDatum[]): number {
  const peaks = data
    .filter((datum) => datum.n >= FEWEST_FOR_A_SHAPE)
    .map((datum) => Math.max(...datum.counts) / datum.n);
  return peaks.length === 0 ? 0 : Math.min(Math.max(...peaks), 3 * (median(peaks) ?? 0));
}

/** The share and place of the fullest bin: what a default value shows up as. NaN for an empty group. */
export function fullestBin(
  datum: RidgeDatum,
  edges: readonly number[]
): { from: number; to: number; share: number } {
  const most = Math.max(...datum.counts);
  const index = datum.counts.indexOf(most);
  return { from: edges[index] ?? NaN, to: edges[index + 1] ?? NaN, share: most / datum.n };
}

/** A group in one line of words. */
export function ridgeLine(datum: RidgeDatum, edges: readonly number[], names: RidgeWords): string {
  if (datum.n < FEWEST_FOR_A_SHAPE)
    return `${datum.label}: ${formatCount(datum.n)} ${names.n}, too few for a shape`;
  const bin = fullestBin(datum, edges);
  return `${datum.label}: most, ${formatPercent(bin.share)}, at ${formatNumber(bin.from, names.form)} to ${formatNumber(bin.to, names.form)}\u2009${names.unit}; ${formatCount(datum.n)} ${names.n}`;
}

/**
 * The outline of a group's counts as steps, closed on the base line; a bin beyond the full share is cut at it.
 *
 * @param x px of a value
 * @param full the share that `heightPx` stands for, more than 0
 */
export function ridgePath(
  datum: RidgeDatum,
  edges: readonly number[],
  x: (value: number) => number,
  base: number,
  full: number,
  heightPx: number
): string {
  const px = (value: number) => String(Math.round(value * 100) / 100);
  const steps = datum.counts.map((count, index) => {
    const top = base - Math.min(1, count / datum.n / full) * heightPx;
    return `V${px(top)}H${px(x(edges[index + 1] ?? NaN))}`;
  });
  return `M${px(x(edges[0] ?? NaN))} ${px(base)}${steps.join('')}V${px(base)}Z`;
}

/** The table twin of ridges: one row for each bin of each group that holds anything. */
export function ridgeTwin(
  data: readonly RidgeDatum[],
  edges: readonly number[],
  names: RidgeWords,
  caption: string
): Twin {
  return {
    caption,
    columns: [
      { key: 'group', label: names.group },
      { key: 'from', label: `${names.value} from`, unit: names.unit, kind: 'number' },
      { key: 'to', label: 'to', unit: names.unit, kind: 'number' },
      { key: 'count', label: names.n, kind: 'number' },
      { key: 'share', label: 'Share', unit: '%', kind: 'number' }
    ],
    rows: data.flatMap((datum) =>
      datum.counts.flatMap((count, index) => {
        if (count === 0) return [];
        const from = edges[index] ?? NaN;
        const to = edges[index + 1] ?? NaN;
        return [
          {
            key: `${datum.key}-${index}`,
            cells: [
              words(datum.label),
              figure(from, formatNumber(from, names.form)),
              figure(to, formatNumber(to, names.form)),
              figure(count, formatCount(count)),
              figure(count / datum.n, formatNumber((count / datum.n) * 100, { decimals: 1 }))
            ]
          }
        ];
      })
    )
  };
}
