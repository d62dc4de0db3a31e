import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { drawnGroups, fewestForMark, largestOf, mostDrawn, mostGroups } from '../../src/routes/rates.ts';

describe('the groups that are drawn', () => {
  const groups = fc.array(fc.record({ judged: fc.nat(100) }), { maxLength: 1_000, size: 'max' });

  it('are never more than can be drawn, the largest of all, in the order given', () => {
    fc.assert(
      fc.property(groups, (all) => {
        const drawn = largestOf(all, ({ judged }) => judged);
        expect(drawn).toHaveLength(Math.min(all.length, mostDrawn));
        expect(drawn).toEqual(all.filter((group) => drawn.includes(group)));
        const least = Math.min(...drawn.map(({ judged }) => judged));
        const left = all.filter((group) => !drawn.includes(group));
        expect(left.every(({ judged }) => judged <= least)).toBe(true);
      }),
      { numRuns: 50 }
    );
  });

  it('leave out those too small to say anything only where there are many', () => {
    const many = Array.from({ length: mostGroups + 2 }, (_, i) => ({ judged: i === 0 ? fewestForMark : 3 }));
    expect(drawnGroups(many, false)).toHaveLength(1);
    expect(drawnGroups(many, true)).toHaveLength(many.length);
    expect(drawnGroups(many.slice(0, mostGroups), false)).toHaveLength(mostGroups);
  });
});
