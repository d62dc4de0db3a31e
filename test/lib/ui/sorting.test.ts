import { describe, expect, it } from 'vitest';
import type { Row } from '#lib/charts/twin.ts';
import { nextSort, sortedRows } from '#lib/ui/sorting.ts';

const columns = [
  { key: 'name', label: 'Name' },
  { key: 'n', label: 'n', kind: 'number' as const }
];
const row = (name: string, n: number): Row => ({
  key: name,
  cells: [{ text: name }, { text: String(n), sort: n }]
});
const rows = [row('H10', 3), row('H9', NaN), row('A', -2), row('H9b', 3)];
const order = (column: string, direction: 'ascending' | 'descending') =>
  sortedRows(rows, columns, { column, direction }).map((each) => each.key);

describe('sortedRows', () => {
  it('sorts numbers by value, ties in the given order, missing last in both directions', () => {
    expect(order('n', 'ascending')).toEqual(['A', 'H10', 'H9b', 'H9']);
    expect(order('n', 'descending')).toEqual(['H10', 'H9b', 'A', 'H9']);
  });

  it('sorts words with their digits by number', () => {
    expect(order('name', 'ascending')).toEqual(['A', 'H9', 'H9b', 'H10']);
  });

  it('keeps the given order without a sort or for an unknown column', () => {
    expect(sortedRows(rows, columns, null)).toBe(rows);
    expect(order('nothing', 'ascending')).toEqual(rows.map((each) => each.key));
  });
});

describe('nextSort', () => {
  it('goes from ascending to descending to the given order', () => {
    const first = nextSort(null, 'n');
    const second = nextSort(first, 'n');
    expect([first?.direction, second?.direction, nextSort(second, 'n')]).toEqual([
      'ascending',
      'descending',
      null
    ]);
  });

  it('starts anew on another column', () => {
    expect(nextSort({ column: 'n', direction: 'descending' }, 'name')).toEqual({
      column: 'name',
      direction: 'ascending'
    });
  });
});
