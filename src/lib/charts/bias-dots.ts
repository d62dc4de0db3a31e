import { group } from 'd3';
import { formatCount, formatInterval, formatNumber, type NumberForm } from './format.ts';
import { figure, toneOf, words, type MarkKind, type Twin } from './twin.ts';

/** A signed mean of a group with its interval. */
export interface BiasDatum {
  key: string;
  label: string;
  /** Rows of the same group stand together under its name. */
  group?: string;
  value: number;
  low: number;
  high: number;
  n: number;
  mark: MarkKind;
  word: string;
}

export interface BiasWords {
  /** What a row is: "Tail". */
  item: string;
  /** What the groups are; no column without it. */
  group?: string;
  value: string;
  unit: string;
  form: NumberForm;
  n: string;
  /** What each side of zero means, in words. */
  minus: string;
  plus: string;
}

/** A drawn row: the name of a group, or a datum. */
export type BiasRow =
  | { kind: 'group'; key: string; label: string }
  | { kind: 'datum'; key: string; label: string; datum: BiasDatum };

/** Rows in the order drawn: each group's name before its data, groups in order of first appearance. */
export function biasRows(data: readonly BiasDatum[]): BiasRow[] {
  const groups = group(data, (datum) => datum.group ?? '');
  return [...groups].flatMap(([name, members]): BiasRow[] => [
    ...(name === '' ? [] : [{ kind: 'group' as const, key: `group ${name}`, label: name }]),
    ...members.map((datum) => ({ kind: 'datum' as const, key: datum.key, label: datum.label, datum }))
  ]);
}

/** The value and count at the right of a row: "+0.42, n 1 204". */
export function biasNote(datum: BiasDatum, names: BiasWords): string {
  return `${formatNumber(datum.value, names.form)}, n ${formatCount(datum.n)}`;
}

/** A datum in one line of words, its side named. */
export function biasLine(datum: BiasDatum, names: BiasWords): string {
  const tone = toneOf(datum.value);
  const side = tone === 'none' ? '' : `, ${tone === 'plus' ? names.plus : names.minus}`;
  const interval = formatInterval(datum.low, datum.high, {
    ...names.form,
    missing: 'none',
    unit: names.unit
  });
  const value = `${formatNumber(datum.value, names.form)}\u2009${names.unit}`;
  return `${datum.label}: ${value}${side}, interval ${interval}; ${formatCount(datum.n)} ${names.n}; ${datum.word}`;
}

/** The table twin of a bias chart: one row a datum, in the order drawn. */
export function biasTwin(data: readonly BiasDatum[], names: BiasWords, caption: string): Twin {
  const number = (value: number) => figure(value, formatNumber(value, { missing: 'none', ...names.form }));
  const groupLabel = names.group;
  return {
    caption,
    columns: [
      { key: 'item', label: names.item },
      ...(groupLabel === undefined ? [] : [{ key: 'group', label: groupLabel }]),
      { key: 'value', label: names.value, unit: names.unit, kind: 'number' },
      { key: 'low', label: 'Interval from', unit: names.unit, kind: 'number' },
      { key: 'high', label: 'to', unit: names.unit, kind: 'number' },
      { key: 'side', label: 'Side' },
      { key: 'n', label: names.n, kind: 'number' },
      { key: 'mark', label: 'Mark' }
    ],
    rows: biasRows(data).flatMap((row) => {
      if (row.kind === 'group') return [];
      const { datum } = row;
      const tone = toneOf(datum.value);
      return [
        {
          key: datum.key,
          cells: [
            words(datum.label),
            ...(groupLabel === undefined ? [] : [words(datum.group ?? '')]),
            { ...number(datum.value), tone },
            number(datum.low),
            number(datum.high),
            words(tone === 'none' ? '' : names[tone]),
            figure(datum.n, formatCount(datum.n)),
            { text: datum.word, mark: datum.mark }
          ]
        }
      ];
    })
  };
}
