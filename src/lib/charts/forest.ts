import { formatCount, formatInterval, formatNumber, formatPercent, type NumberForm } from './format.ts';
import { figure, toneOf, words, type Cell, type Twin } from './twin.ts';

/** The difference of two sides within one stratum. */
export interface ForestDatum {
  key: string;
  label: string;
  nA: number;
  nB: number;
  value: number;
  low: number;
  high: number;
  /** Share of the pooled difference, 0 to 1; 0 where one side is missing; left out where rows do not add up to it. */
  weight?: number;
}

/** The pooled difference at the foot. */
export interface ForestFoot {
  key: string;
  label: string;
  nA: number;
  nB: number;
  value: number;
  low: number;
  high: number;
}

export interface ForestWords {
  item: string;
  /** The names of the two sides. */
  a: string;
  b: string;
  value: string;
  unit: string;
  form: NumberForm;
  minus: string;
  plus: string;
  /** False where the sides are not those of gauge and meter, whose inks they must not take. */
  inked?: boolean;
}

/** The counts beside a row. */
export function forestNote(datum: { nA: number; nB: number }): string {
  return `${formatCount(datum.nA)} and ${formatCount(datum.nB)}`;
}

/** A row's share of the pooled difference; the foot has none of its own. */
export function shareOf(datum: ForestDatum | ForestFoot): number | undefined {
  return 'weight' in datum ? datum.weight : undefined;
}

/** A stratum or the foot in one line of words. */
export function forestLine(datum: ForestDatum | ForestFoot, names: ForestWords): string {
  const tone = toneOf(datum.value);
  const side = tone === 'none' ? '' : `, ${names[tone]}`;
  const interval = formatInterval(datum.low, datum.high, {
    ...names.form,
    missing: 'none',
    unit: names.unit
  });
  const value = `${formatNumber(datum.value, { missing: 'none', ...names.form })}\u2009${names.unit}`;
  const share = shareOf(datum);
  const weight = share === undefined ? '' : `; weight ${formatPercent(share)}`;
  return `${datum.label}: ${value}${side}, interval ${interval}; ${formatCount(datum.nA)} ${names.a}, ${formatCount(datum.nB)} ${names.b}${weight}`;
}

const shareCell = (share: number): Cell => figure(share, formatNumber(share * 100, { decimals: 1 }));

/** The table twin of a forest: one row a stratum, the pooled difference last. */
export function forestTwin(
  data: readonly ForestDatum[],
  foot: ForestFoot | null,
  names: ForestWords,
  caption: string
): Twin {
  const number = (value: number) => figure(value, formatNumber(value, { missing: 'none', ...names.form }));
  const weighed = data.some((datum) => datum.weight !== undefined);
  const rows: readonly (ForestDatum | ForestFoot)[] = foot === null ? data : [...data, foot];
  return {
    caption,
    columns: [
      { key: 'item', label: names.item },
      { key: 'nA', label: names.a, kind: 'number' },
      { key: 'nB', label: names.b, kind: 'number' },
      { key: 'value', label: names.value, unit: names.unit, kind: 'number' },
      { key: 'low', label: 'Interval from', unit: names.unit, kind: 'number' },
      { key: 'high', label: 'to', unit: names.unit, kind: 'number' },
      ...(weighed ? [{ key: 'weight', label: 'Weight', unit: '%', kind: 'number' as const }] : [])
    ],
    rows: rows.map((datum) => ({
      key: datum.key,
      cells: [
        words(datum.label),
        figure(datum.nA, formatCount(datum.nA)),
        figure(datum.nB, formatCount(datum.nB)),
        { ...number(datum.value), tone: names.inked === false ? 'none' : toneOf(datum.value) },
        number(datum.low),
        number(datum.high),
        ...(weighed ? [shareCell(shareOf(datum) ?? 1)] : [])
      ]
    }))
  };
}
