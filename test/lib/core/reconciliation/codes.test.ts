import { describe, expect, it } from 'vitest';
import {
  bitOf,
  codesIn,
  densityMethods,
  indexOf,
  limitBases,
  markBits,
  marks,
  orderedBases,
  qualities,
  reasonBits,
  reasons,
  verdicts
} from '#lib/core/reconciliation/index.ts';

describe('codes', () => {
  it('keep the small integers that stored columns hold', () => {
    expect(qualities).toEqual(['notReconcilable', 'estimated', 'measured']);
    expect(verdicts).toEqual(['notJudged', 'within', 'outside']);
    expect(densityMethods).toEqual(['notStated', 'hydrometer', 'densitometer', 'inLine']);
    expect(orderedBases).toEqual(['notStated', 'totalOnBoard', 'amountToAdd']);
    expect(indexOf(limitBases, 'higherOfExpectedAndIndicated')).toBe(2);
  });

  it.each([
    ['reasons', reasons, reasonBits],
    ['marks', marks, markBits]
  ] as const)('give every one of the %s its own bit of 31', (_what, list, bits) => {
    expect(list.length).toBeLessThanOrEqual(31);
    expect(Object.keys(bits)).toEqual([...list]);
    expect(Object.values(bits)).toEqual(list.map((_, index) => 2 ** index));
  });

  it('come back from their bits in list order', () => {
    const bits = bitOf(reasons, 'defaultDensity') | bitOf(reasons, 'volumeMissing');
    expect(codesIn(reasons, bits)).toEqual(['volumeMissing', 'defaultDensity']);
    expect(codesIn(marks, 0)).toEqual([]);
  });
});
