import { describe, expect, it } from 'vitest';
import { readFilter } from '#lib/state/filter.ts';
import { hashOf, optionsOf, parametersOf } from '#lib/state/hash.ts';

describe('the address after the hash', () => {
  it('holds filter and page options in one order, and gives both back', () => {
    const filter = { names: { tail: ['Q7-KEB'], station: ['JKES'] }, fromDay: '2031-07-01' };
    const hash = hashOf(filter, { record: '7c1e94b0-214', columns: '', by: 'tail' });
    expect(hash).toBe('#station=JKES&tail=Q7-KEB&from=2031-07-01&by=tail&record=7c1e94b0-214');
    const parameters = parametersOf(hash);
    const read = readFilter(parameters).filter;
    expect(hashOf(read, {})).toBe(hashOf(filter, {}));
    expect(optionsOf(parameters, read)).toEqual({ by: 'tail', record: '7c1e94b0-214' });
  });

  it('is empty where nothing is asked', () => {
    expect(hashOf({}, { record: '' })).toBe('');
  });
});
