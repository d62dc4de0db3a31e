import { formatCount, formatNumber, type NumberForm } from './format.ts';
import { figure, words, type MarkKind, type Twin } from './twin.ts';

/** Five points of a spread. NaN where there are too few values. */
export interface BoxDatum {
  key: string;
  label: string;
  n: number;
  q05: number;
  q25: number;
  q50: number;
  q75: number;
  q95: number;
  /** The values themselves; drawn as dots instead of a strip when there are fewer than ten. */
  values?: readonly number[];
  mark: MarkKind;
  word: string;
}

export interface BoxWords {
  group: string;
  value: string;
  unit: string;
  form: NumberForm;
  n: string;
}

/** Below this count the single values are drawn: five quantiles of nine values say less than the nine. */
export const FEWEST_FOR_A_STRIP = 10;

/** A datum in one line of words. */
export function boxLine(datum: BoxDatum, names: BoxWords): string {
  const number = (value: number) => formatNumber(value, { missing: 'none', ...names.form });
  return (
    `${datum.label}: median ${number(datum.q50)}\u2009${names.unit}, ` +
    `middle half ${number(datum.q25)} to ${number(datum.q75)}, ` +
    `5 to 95 % ${number(datum.q05)} to ${number(datum.q95)}; ${formatCount(datum.n)} ${names.n}; ${datum.word}`
  );
}

/** The table twin of box strips: one row a group, in the order drawn. */
export function boxTwin(data: readonly BoxDatum[], names: BoxWords, caption: string): Twin {
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
      { key: 'group', label: names.group },
      { key: 'n', label: names.n, kind: 'number' },
      column('q05', '5 %'),
      column('q25', '25 %'),
      column('q50', 'Median'),
      column('q75', '75 %'),
      column('q95', '95 %'),
      { key: 'mark', label: 'Mark' }
    ],
    rows: data.map((datum) => ({
      key: datum.key,
      cells: [
        words(datum.label),
        figure(datum.n, formatCount(datum.n)),
        number(datum.q05),
        number(datum.q25),
        number(datum.q50),
        number(datum.q75),
        number(datum.q95),
        { text: datum.word, mark: datum.mark }
      ]
    }))
  };
}
