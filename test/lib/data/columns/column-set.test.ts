import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ColumnSet } from '#lib/data/columns/index.ts';

interface Cells {
  readonly number: number | null;
  readonly name: string | null;
  readonly text: string | null;
}

const rowsArbitrary = fc.array(
  fc.record({
    number: fc.option(fc.double({ noNaN: true })),
    name: fc.option(fc.string({ minLength: 1 })),
    text: fc.option(fc.string({ minLength: 1, unit: 'grapheme' }))
  }),
  { maxLength: 40 }
);

function setOf(rows: readonly Cells[]): ColumnSet {
  const set = new ColumnSet();
  for (const row of rows) {
    if (row.number !== null) set.number('volume').push(row.number);
    if (row.name !== null) set.code('station').pushText(row.name);
    if (row.text !== null) set.text('ticket').push(row.text);
    set.endRow();
  }
  return set;
}

function cellsOf(set: ColumnSet): Cells[] {
  return Array.from({ length: set.rowCount }, (_none, row) => ({
    number: Number.isNaN(set.number('volume').at(row)) ? null : set.number('volume').at(row),
    name: set.code('station').text(row) || null,
    text: set.text('ticket').at(row) || null
  }));
}

describe('a column set', () => {
  it('gives back every cell, with missing ones missing', () => {
    fc.assert(
      fc.property(rowsArbitrary, (rows) => {
        expect(cellsOf(setOf(rows))).toEqual(rows);
      })
    );
  });

  it('fills a column that is asked for late with missing values for the rows before', () => {
    const set = new ColumnSet();
    set.endRow();
    set.endRow();
    expect(set.number('volume').values()).toEqual(new Float64Array([NaN, NaN]));
    expect(set.code('station').codes()).toEqual(new Uint32Array([0, 0]));
  });

  it('keeps nothing of a row that is abandoned', () => {
    const set = setOf([{ number: 1, name: 'JARV', text: 'T1' }]);
    set.number('volume').push(2);
    set.text('ticket').push('half a row');
    set.abandonRow();
    set.number('volume').push(3);
    set.endRow();
    expect(cellsOf(set)).toEqual([
      { number: 1, name: 'JARV', text: 'T1' },
      { number: 3, name: null, text: null }
    ]);
  });

  it('appends another set as if its rows had been written to the first', () => {
    fc.assert(
      fc.property(rowsArbitrary, rowsArbitrary, (first, second) => {
        const set = setOf(first);
        set.append(setOf(second));
        expect(cellsOf(set)).toEqual([...first, ...second]);
      })
    );
  });

  it('takes the rows named, in the order named', () => {
    const set = setOf([
      { number: 1, name: 'a', text: 'x' },
      { number: null, name: 'b', text: null },
      { number: 3, name: null, text: 'z' }
    ]);
    expect(cellsOf(set.take(new Uint32Array([2, 0])))).toEqual([
      { number: 3, name: null, text: 'z' },
      { number: 1, name: 'a', text: 'x' }
    ]);
  });

  it('forgets names that no row has when it is compacted', () => {
    const set = setOf([
      { number: 1, name: 'gone', text: 'x' },
      { number: 2, name: 'kept', text: 'y' }
    ]);
    const compact = set.take(new Uint32Array([1])).compacted();
    expect(compact.code('station').dictionary.texts()).toEqual(['', 'kept']);
    expect(compact.code('station').text(0)).toBe('kept');
  });

  it('counts dangerous names like any other', () => {
    const names = ['__proto__', 'constructor', 'toString', 'hasOwnProperty', '__proto__'];
    const set = setOf(names.map((name) => ({ number: null, name, text: null })));
    expect(set.code('station').dictionary.size).toBe(5);
    expect(cellsOf(set).map(({ name }) => name)).toEqual(names);
  });

  it('refuses a key that holds another kind of column', () => {
    const set = new ColumnSet();
    set.number('volume');
    expect(() => set.code('volume')).toThrow('column volume: number, need code');
  });
});
