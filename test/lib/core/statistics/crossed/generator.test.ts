import { describe, expect, it } from 'vitest';
import { layoutOf } from '../../../../reference/methods-crossed.ts';
import { isFields, numberOf, numbersOf, readCases } from '../../../../reference/read-case.ts';

const withCheck = readCases(new URL('../../../../reference/statistics.json', import.meta.url)).filter(
  (entry) => isFields(entry.input['check'])
);

describe('the generator of simulated records', () => {
  it('has something to be checked against', () => {
    expect(withCheck.length).toBeGreaterThan(0);
  });

  it.each(withCheck)('gives the records the reference was fitted to: $id', ({ input }) => {
    const check = isFields(input['check']) ? input['check'] : {};
    const { a, b, y, size } = layoutOf(input);
    const first = (values: ArrayLike<number>): number[] =>
      Array.from(values).slice(0, numbersOf(check, 'firstE').length);
    const sum = (values: ArrayLike<number>): number =>
      Array.from(values).reduce((total, value) => total + value, 0);
    expect(first(y)).toEqual(numbersOf(check, 'firstE'));
    expect(first(a)).toEqual(numbersOf(check, 'firstA'));
    expect(first(b)).toEqual(numbersOf(check, 'firstB'));
    expect(first(size)).toEqual(numbersOf(check, 'firstM'));
    expect(sum(y)).toBeCloseTo(numberOf(check, 'sumE'), 5);
    expect(sum(size)).toBe(numberOf(check, 'sumM'));
  });
});
