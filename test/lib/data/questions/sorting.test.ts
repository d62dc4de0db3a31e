import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { NumberColumn, TextColumn } from '#lib/data/columns/index.ts';
import { ordered } from '#lib/data/questions/sorting.ts';

/** Sorts by plain means: missing last either way, level rows in the order given. */
function plainly<T>(
  values: readonly T[],
  isMissing: (value: T) => boolean,
  less: (a: T, b: T) => number,
  descending: boolean
): number[] {
  const rows = values.map((_none, row) => row);
  const value = (row: number): T => {
    const found = values[row];
    if (found === undefined) throw new RangeError(`row: ${row}, need one of the values`);
    return found;
  };
  const present = rows.filter((row) => !isMissing(value(row)));
  present.sort((a, b) => (descending ? -1 : 1) * less(value(a), value(b)) || a - b);
  return [...present, ...rows.filter((row) => isMissing(value(row)))];
}

describe('the order of records', () => {
  const rowsOf = (values: readonly unknown[]) => Uint32Array.from(values, (_none, row) => row);

  it('of texts is that of their code points, however long they are alike', () => {
    const text = fc.oneof(
      fc.stringMatching(/^[ab]{0,9}$/),
      fc.constantFrom('', '0001', 'aaaaaaé', 'aaaaaae', 'aaaaaa', 'Ü')
    );
    fc.assert(
      fc.property(fc.array(text, { maxLength: 40 }), fc.boolean(), (texts, descending) => {
        const column = new TextColumn();
        for (const each of texts) column.push(each);
        const found = ordered(rowsOf(texts), descending, column, () => () => NaN);
        const less = (a: string, b: string) => (a < b ? -1 : a > b ? 1 : 0);
        expect([...found]).toEqual(plainly(texts, (each) => each === '', less, descending));
      })
    );
  });

  it('of numbers is theirs', () => {
    const number = fc.oneof(fc.integer({ min: -3, max: 3 }), fc.constantFrom(NaN, Infinity, -Infinity, 0.5));
    fc.assert(
      fc.property(fc.array(number, { maxLength: 40 }), fc.boolean(), (numbers, descending) => {
        const column = NumberColumn.of(Float64Array.from(numbers));
        const found = ordered(rowsOf(numbers), descending, column, () => (row) => column.at(row));
        const less = (a: number, b: number) => (a < b ? -1 : a > b ? 1 : 0);
        expect([...found]).toEqual(plainly(numbers, Number.isNaN, less, descending));
      })
    );
  });
});
