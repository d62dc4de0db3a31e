import { formatCount, formatNumber, type NumberForm } from './format.ts';
import { figure, words, type Twin } from './twin.ts';

/** Two values of one group: as it stands, and made comparable. */
export interface PairedDatum {
  key: string;
  label: string;
  first: number;
  second: number;
  n: number;
}

export interface PairedWords {
  item: string;
  first: string;
  second: string;
  value: string;
  unit: string;
  form: NumberForm;
  n: string;
}

/** A pair in one line of words. */
export function pairedLine(datum: PairedDatum, names: PairedWords): string {
  const number = (value: number) =>
    `${formatNumber(value, { missing: 'none', ...names.form })}\u2009${names.unit}`;
  return `${datum.label}: ${names.first} ${number(datum.first)}, ${names.second} ${number(datum.second)}; ${formatCount(datum.n)} ${names.n}`;
}

/** The table twin of paired dots: one row a group. */
export function pairedTwin(data: readonly PairedDatum[], names: PairedWords, caption: string): Twin {
  const number = (value: number) => figure(value, formatNumber(value, { missing: 'none', ...names.form }));
  const column = (key: string, label: string) => ({
    key,
    label,
    unit: names.unit,
    kind: 'number' as const
  });
  return {
    caption,
    columns: [
      { key: 'item', label: names.item },
      column('first', names.first),
      column('second', names.second),
      column('move', 'Difference'),
      { key: 'n', label: names.n, kind: 'number' }
    ],
    rows: data.map((datum) => ({
      key: datum.key,
      cells: [
        words(datum.label),
        number(datum.first),
        number(datum.second),
        figure(
          datum.second - datum.first,
          formatNumber(datum.second - datum.first, { missing: 'none', ...names.form, signed: true })
        ),
        figure(datum.n, formatCount(datum.n))
      ]
    }))
  };
}
