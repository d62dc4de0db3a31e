import { describe, expect, it } from 'vitest';
import { answer } from '#lib/data/questions/index.ts';
import { mergeSides, sumSides } from '#lib/data/questions/two-sides.ts';
import type { Literal } from '../ledger/rows-of.ts';
import { contextOf, uplift } from './uplifts.ts';

/** So many uplifts of one supplier at one station, the first `outside` of them 5 % off, the rest by `offKg`. */
function served(
  supplier: string,
  station: string,
  [outside, count]: readonly [number, number],
  more: Literal = {},
  offKg = 0
): Literal[] {
  return Array.from({ length: count }, (_none, i) => {
    const id = `${supplier}${station}${more.time ?? ''}${i}`;
    const one = { ticket: id, tail: id, supplier, time: '2031-01-10T00:00:00Z', ...more };
    return uplift(i, station, i < outside ? 400 : offKg, one);
  });
}

const asked = { filter: {}, a: 'Ostrel', b: 'Pellam', measure: 'rate', bySeason: false } as const;

/** Renal stones as uplifts: A and B are the two treatments, the stations small and large stones. */
const stones = contextOf([
  ...served('Ostrel', 'JARV', [6, 87]),
  ...served('Ostrel', 'JBEL', [71, 263]),
  ...served('Pellam', 'JARV', [36, 270]),
  ...served('Pellam', 'JBEL', [25, 80])
]);

describe('two suppliers compared like for like', () => {
  const found = answer(stones, 'suppliers', asked);
  const [plain, fair] = [found.steps[0], found.steps.at(-1)];

  it('turn round where the plain rates mislead: the published case of Charig et al. 1986, BMJ 292:879', () => {
    // Failures of 350 a side: 22 against 17 % in sum, fewer with A for small stones and for large ones.
    expect(plain?.valueA).toBeCloseTo(77 / 350, 12);
    expect(plain?.valueB).toBeCloseTo(61 / 350, 12);
    expect(plain?.difference).toBeGreaterThan(0);
    expect(fair?.difference).toBeLessThan(0);
    // Mantel-Haenszel weights by hand, and the odds ratio of failure: 1 / 1.447 as that of success is printed.
    const [small, large] = [(87 * 270) / 357, (263 * 80) / 343];
    const byHand = (small * (6 / 87 - 36 / 270) + large * (71 / 263 - 25 / 80)) / (small + large);
    expect(fair?.difference).toBeCloseTo(byHand, 12);
    expect(1 / found.oddsRatio).toBeCloseTo(1.447, 3);
    expect(found.pValue).toBeCloseTo(0.1187405, 6);
  });

  it('have the score interval of another computation, turned to failures', () => {
    expect(fair?.lower).toBeCloseTo(-0.1192026, 5);
    expect(fair?.upper).toBeCloseTo(0.0142003, 5);
    // Neither difference can be told from zero, so nothing is said to be reversed.
    expect(found.reversed).toBe(false);
  });

  it('say how much of each has a counterpart, and at which stations', () => {
    const some = answer(
      contextOf([
        ...served('Ostrel', 'JARV', [10, 150]),
        ...served('Ostrel', 'JCOD', [90, 300]),
        ...served('Pellam', 'JARV', [10, 150]),
        ...served('Pellam', 'JBEL', [0, 50])
      ]),
      'suppliers',
      asked
    );
    expect(some.a).toEqual({ name: 'Ostrel', refuellings: 450, common: 150 });
    expect(some.b).toEqual({ name: 'Pellam', refuellings: 200, common: 150 });
    expect(some.stations).toEqual([{ name: 'JARV', nA: 150, nB: 150 }]);
    expect(some.refusal).toBeNull();
    expect(some.steps.map(({ same, nA, nB }) => [same, nA, nB])).toEqual([
      ['nothing', 450, 200],
      ['station', 150, 150],
      ['type', 150, 150],
      ['size', 150, 150],
      ['season', 150, 150]
    ]);
    expect(some.steps.at(-1)?.difference).toBeCloseTo(0, 12);
    expect(some.steps[0]?.difference).toBeCloseTo(100 / 450 - 10 / 200, 12);
  });

  it.each([
    { why: 'oneSupplier', with: [...served('Ostrel', 'JARV', [5, 120])] },
    { why: 'noCommon', with: [...served('Ostrel', 'JARV', [5, 120]), ...served('Pellam', 'JBEL', [5, 120])] },
    {
      why: 'noCommon',
      with: [
        ...served('Ostrel', 'JARV', [5, 120]),
        ...served('Pellam', 'JARV', [5, 120], { time: '2031-07-10T00:00:00Z' })
      ]
    },
    {
      why: 'fewUplifts',
      with: [...served('Ostrel', 'JARV', [5, 120]), ...served('Pellam', 'JARV', [5, 99])]
    },
    {
      why: 'fewEvents',
      with: [...served('Ostrel', 'JARV', [2, 120]), ...served('Pellam', 'JARV', [2, 120])]
    },
    {
      why: 'thinOverlap',
      with: [
        ...served('Ostrel', 'JARV', [9, 100]),
        ...served('Ostrel', 'JCOD', [9, 950]),
        ...served('Pellam', 'JARV', [9, 100]),
        ...served('Pellam', 'JBEL', [9, 950])
      ]
    }
  ])('give no fair figure: $why', ({ why, with: records }) => {
    const refused = answer(contextOf(records), 'suppliers', asked);
    expect(refused.refusal).toBe(why);
    expect(refused.steps).toHaveLength(1);
    expect(refused.strata).toEqual([]);
  });

  it('compare one that serves a single station of another’s many', () => {
    const context = contextOf([
      ...served('Ostrel', 'JARV', [9, 100]),
      ...served('Ostrel', 'JCOD', [9, 950]),
      ...served('Pellam', 'JARV', [9, 100])
    ]);
    expect(answer(context, 'suppliers', asked).refusal).toBeNull();
  });

  it('choose the pair that can best be compared where none is named', () => {
    const context = contextOf([
      ...served('Ostrel', 'JARV', [5, 300]),
      ...served('Marrow', 'JBEL', [5, 200]),
      ...served('Pellam', 'JBEL', [5, 150])
    ]);
    const chosen = answer(context, 'suppliers', { ...asked, a: '', b: '' });
    expect([chosen.a.name, chosen.b.name]).toEqual(['Marrow', 'Pellam']);
    expect(chosen.pairs.map(({ a, b, refusal }) => [a, b, refusal])).toEqual([
      ['Ostrel', 'Marrow', 'noCommon'],
      ['Ostrel', 'Pellam', 'noCommon'],
      ['Marrow', 'Pellam', null]
    ]);
  });

  it('compare means of the discrepancy too, in per cent of metered mass', () => {
    // 80 kg of 8,000 kg is 1 %; at each station Ostrel lies 1 % above Pellam, JBEL 2 % above JARV.
    const context = contextOf([
      ...served('Ostrel', 'JARV', [0, 100], {}, 80),
      ...served('Pellam', 'JARV', [0, 400], {}, 0),
      ...served('Ostrel', 'JBEL', [0, 400], {}, 240),
      ...served('Pellam', 'JBEL', [0, 100], {}, 160)
    ]);
    const means = answer(context, 'suppliers', { ...asked, measure: 'mean' });
    expect(means.steps.at(-1)?.difference).toBeCloseTo(1, 9);
    expect(means.steps[0]?.difference).toBeCloseTo((100 * 1 + 400 * 3 - 100 * 2) / 500, 9);
    expect(means.oddsRatio).toBeNaN();
  });

  it('show seasons as rows of their own where asked, the weights adding up to the same', () => {
    const summer = { time: '2031-07-10T00:00:00Z' };
    const context = contextOf([
      ...served('Ostrel', 'JARV', [5, 80]),
      ...served('Pellam', 'JARV', [5, 90]),
      ...served('Ostrel', 'JARV', [5, 60], summer),
      ...served('Pellam', 'JARV', [9, 70], summer)
    ]);
    const together = answer(context, 'suppliers', asked);
    const apart = answer(context, 'suppliers', { ...asked, bySeason: true });
    const weight = (rows: readonly { weight: number }[]) => rows.reduce((sum, row) => sum + row.weight, 0);
    expect(apart.strata.map(({ season }) => season)).toEqual(['Dec to Feb', 'Jun to Aug']);
    expect(weight(apart.strata)).toBeCloseTo(weight(together.strata), 9);
    expect(weight(together.strata)).toBeCloseTo((80 * 90) / 170 + (60 * 70) / 130, 9);
  });
});

describe('sums of two sides', () => {
  it('put together are those of the values put together', () => {
    const values = Float64Array.of(3, 5, -1, 8, 2, 7, 7, 0.5);
    const strata = { codes: Uint32Array.of(0, 0, 1, 1, 2, 2, 0, 1), count: 3 };
    const sides = Uint8Array.of(0, 0, 0, 0, 0, 0, 1, 2);
    const [a, b] = sumSides(strata, sides, 2, values);
    if (a === undefined || b === undefined) throw new Error('sides: missing, need two');
    const [merged] = mergeSides([a, b], Uint8Array.of(0, 0, 0), 1);
    const own = [3, 5, -1, 8, 2, 7];
    const mean = own.reduce((sum, x) => sum + x, 0) / 6;
    expect(merged.count[0]).toBe(6);
    expect(merged.sum[0]).toBeCloseTo(24, 12);
    expect(merged.squares[0]).toBeCloseTo(
      own.reduce((sum, x) => sum + (x - mean) ** 2, 0),
      10
    );
    expect(b.count[0]).toBe(1);
  });
});
