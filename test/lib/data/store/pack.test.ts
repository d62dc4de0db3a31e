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
    const back = unpackColumns(structuredClone([...packColumns(set)]));
    expect(back.rowCount).toBe(3);
    expect(back.number('volume').values()).toEqual(set.number('volume').values());
    expect(back.code('station').text(2)).toBe('__proto__');
    expect([0, 1, 2].map((row) => back.text('ticket').at(row))).toEqual(['0001', 'Ü-2', '']);
  });

  it('of some rows hold nothing of the others', () => {
    const set = new ColumnSet();
    for (const name of ['JARV', 'JESK', 'JLOM', 'JESK']) {
      set.code('station').pushText(name);
      set.text('ticket').push(`${name} 1`);
      set.number('volume').push(name.length);
      set.endRow();
    }
    const packed = [...packColumns(set, 1, 3)];
    expect(JSON.stringify(packed)).not.toContain('JARV');
    const back = unpackColumns(packed);
    expect([0, 1].map((row) => back.code('station').text(row))).toEqual(['JESK', 'JLOM']);
    expect([0, 1].map((row) => back.text('ticket').at(row))).toEqual(['JESK 1', 'JLOM 1']);
    expect(back.rowCount).toBe(2);
  });
});
