import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { countByCode, rowsByCode } from '#lib/data/columns/index.ts';

describe('grouping by code', () => {
  it('puts every row into its group once, order kept', () => {
    fc.assert(
      fc.property(
        fc.array(fc.nat(6), { maxLength: 60 }),
        fc.array(fc.nat(59), { maxLength: 60 }),
        (codes, picks) => {
          const column = Uint32Array.from(codes);
          const rows = Uint32Array.from(new Set(picks.filter((row) => row < codes.length)));
          const grouped = rowsByCode(column, 7, rows);
          for (let code = 0; code < 7; code++) {
            const expected = [...rows].filter((row) => codes[row] === code);
            expect([...grouped.rows.subarray(grouped.starts[code], grouped.starts[code + 1])]).toEqual(
              expected
            );
            expect(countByCode(column, 7, rows)[code]).toBe(expected.length);
          }
        }
      )
    );
  });
});
