import { formatCount, formatNumber, type NumberForm } from './format.ts';
import { figure, words, type MarkKind, type Twin } from './twin.ts';

export interface ScatterPoint {
  key: string;
  label: string;
  x: number;
  y: number;
  mark: MarkKind;
}

export interface ScatterBin {
  key: string;
  x0: number;
  x1: number;
  y0: number;
  y1: number;
  count: number;
}

/** Single points, or bins with counts where there are too many to see. */
export type ScatterData =
  { kind: 'points'; points: readonly ScatterPoint[] } | { kind: 'bins'; bins: readonly ScatterBin[] };

export interface ScatterLine {
  key: string;
  label: string;
  from: readonly [number, number];
  to: readonly [number, number];
  dashed?: boolean;
}

export interface AxisWords {
  label: string;
  unit: string;
  form: NumberForm;
}

export interface ScatterWords {
  /** What a point is. */
  item: string;
  x: AxisWords;
  y: AxisWords;
  /** What is counted in a bin. */
  n: string;
}

/** More points than this are drawn as bins. */
export const MOST_POINTS = 5000;

/**
 * Counts points in a grid over two domains. Points outside a domain, and those with a missing value, are left out; a
 * point on the upper edge belongs to the last bin. Empty bins are not returned.
 *
 * @returns bins by column, then row
 */
export function binPoints(
  xs: ArrayLike<number>,
  ys: ArrayLike<number>,
  xDomain: readonly [number, number],
  yDomain: readonly [number, number],
  columns = 48,
  rows = 24
): ScatterBin[] {
  const counts = new Uint32Array(columns * rows);
  for (let i = 0; i < xs.length; i++) {
    const column = slot(xs[i] ?? NaN, xDomain, columns);
    const row = slot(ys[i] ?? NaN, yDomain, rows);
    if (column < 0 || row < 0) continue;
    const place = column * rows + row;
    counts[place] = (counts[place] ?? 0) + 1;
  }
  const edge = (domain: readonly [number, number], index: number, parts: number) =>
    domain[0] + (index / parts) * (domain[1] - domain[0]);
  const bins: ScatterBin[] = [];
  counts.forEach((count, place) => {
    if (count === 0) return;
    const column = Math.floor(place / rows);
    const row = place % rows;
    bins.push({
      key: `${column}-${row}`,
      x0: edge(xDomain, column, columns),
      x1: edge(xDomain, column + 1, columns),
      y0: edge(yDomain, row, rows),
      y1: edge(yDomain, row + 1, rows),
      count
    });
  });
  return bins;
}

/**
 * The greatest counts of up to five ink steps, in equal ratios up to the fullest bin: [2, 6, 15, 38, 100]. Steps that
 * would hold no count of their own are left out.
 */
export function countSteps(most: number): number[] {
  const steps = [1, 2, 3, 4, 5].map((step) => Math.floor(most ** (step / 5) + 1e-9));
  return steps.filter((value, index) => value >= 1 && value !== steps[index - 1]);
}

/** The ink step of a count, 1 to 5: the fullest bins are always the darkest. */
export function countStep(count: number, steps: readonly number[]): number {
  const index = steps.findIndex((most) => count <= most);
  return 5 - (steps.length - 1) + (index < 0 ? steps.length - 1 : index);
}

/** A point or a bin in one line of words. */
export function scatterLine(datum: ScatterPoint | ScatterBin, names: ScatterWords): string {
  if ('count' in datum) {
    return `${names.x.label} ${span(datum.x0, datum.x1, names.x)}, ${names.y.label} ${span(datum.y0, datum.y1, names.y)}: ${formatCount(datum.count)} ${names.n}`;
  }
  return `${datum.label}: ${names.x.label} ${one(datum.x, names.x)}, ${names.y.label} ${one(datum.y, names.y)}`;
}

/** The table twin: one row a point, or one row a bin with its count. */
export function scatterTwin(data: ScatterData, names: ScatterWords, caption: string): Twin {
  const number = (value: number, axis: AxisWords) => figure(value, formatNumber(value, axis.form));
  const column = (key: string, label: string, axis: AxisWords) => ({
    key,
    label,
    unit: axis.unit,
    kind: 'number' as const
  });
  if (data.kind === 'points') {
    return {
      caption,
      columns: [
        { key: 'item', label: names.item },
        column('x', names.x.label, names.x),
        column('y', names.y.label, names.y)
      ],
      rows: data.points.map((point) => ({
        key: point.key,
        cells: [words(point.label), number(point.x, names.x), number(point.y, names.y)]
      }))
    };
  }
  return {
    caption,
    columns: [
      column('x0', `${names.x.label} from`, names.x),
      column('x1', 'to', names.x),
      column('y0', `${names.y.label} from`, names.y),
      column('y1', 'to', names.y),
      { key: 'count', label: names.n, kind: 'number' }
    ],
    rows: data.bins.map((bin) => ({
      key: bin.key,
      cells: [
        number(bin.x0, names.x),
        number(bin.x1, names.x),
        number(bin.y0, names.y),
        number(bin.y1, names.y),
        figure(bin.count, formatCount(bin.count))
      ]
    }))
  };
}

function one(value: number, axis: AxisWords): string {
  return `${formatNumber(value, axis.form)}\u2009${axis.unit}`;
}

function span(from: number, to: number, axis: AxisWords): string {
  return `${formatNumber(from, axis.form)} to ${one(to, axis)}`;
}

function slot(value: number, domain: readonly [number, number], parts: number): number {
  if (!(value >= domain[0] && value <= domain[1])) return -1;
  return Math.min(parts - 1, Math.floor(((value - domain[0]) / (domain[1] - domain[0])) * parts));
}
