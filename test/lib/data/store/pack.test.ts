import { describe, expect, it } from 'vitest';
import { ColumnSet } from '#lib/data/columns/index.ts';
import { packColumns, unpackColumns } from '#lib/data/store/index.ts';

describe('stored columns', () => {
  it('come back bit for bit after a structured clone', () => {
    const set = new ColumnSet();
    for (const [volume, station, ticket] of [
      [14850.125, 'JARV', '0001'],
      [-0, '', 'Ü-2'],
      [NaN, '__proto__', '']
    ] as const) {
      set.number('volume').push(volume);
      set.code('station').pushText(station);
      set.text('ticket').push(ticket);
      set.endRow();
    }
    const back = unpackColumns(structuredClone(packColumns(set)));
    expect(back.rowCount).toBe(3);
    expect(back.number('volume').values()).toEqual(set.number('volume').values());
    expect(back.code('station').text(2)).toBe('__proto__');
    expect([0, 1, 2].map((row) => back.text('ticket').at(row))).toEqual(['0001', 'Ü-2', '']);
  });
});
