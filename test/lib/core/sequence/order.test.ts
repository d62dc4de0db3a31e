import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { orderByCodeAndTime } from '#lib/core/sequence/index.ts';

describe('orderByCodeAndTime', () => {
  it.each<[string, number[], number[], number[]]>([
    ['nothing', [], [], []],
    ['one row', [3], [5], [0]],
    ['rows by code, then time', [2, 1, 2, 1], [40, 30, 20, 10], [3, 1, 2, 0]],
    ['equal times by row', [1, 1, 1], [7, 7, 7], [0, 1, 2]],
    ['rows without a code first', [1, 0, 1, 0], [1, 9, 2, 8], [3, 1, 0, 2]],
    ['rows without a time last', [1, 1, 1], [NaN, 5, 4], [2, 1, 0]]
  ])('orders %s', (_what, codes, times, order) => {
    expect([...orderByCodeAndTime(Uint32Array.from(codes), Float64Array.from(times))]).toEqual(order);
  });

  it('is the order a plain comparison gives', () => {
    const row = fc.tuple(
      fc.integer({ min: 0, max: 4 }),
      fc.oneof(fc.integer({ min: 0, max: 20 }), fc.constant(NaN))
    );
    fc.assert(
      fc.property(fc.array(row, { maxLength: 60 }), (rows) => {
        const rank = (time: number) => (Number.isNaN(time) ? 1e9 : time);
        const plain = rows
          .map(([code, time], index) => ({ code, time: rank(time), index }))
          .sort((a, b) => a.code - b.code || a.time - b.time || a.index - b.index)
          .map(({ index }) => index);
        const codes = Uint32Array.from(rows, ([code]) => code);
        const times = Float64Array.from(rows, ([, time]) => time);
        expect([...orderByCodeAndTime(codes, times)]).toEqual(plain);
      })
    );
  });
});
