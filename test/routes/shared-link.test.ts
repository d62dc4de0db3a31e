import { describe, expect, it } from 'vitest';
import { differenceOf } from '../../src/routes/shared-link.ts';

const here = { data: '7c1e94b0', limits: 'own.2' };

describe('a link that says what it was made with', () => {
  it('is silent where data and limits are the same, or where it says nothing of them', () => {
    expect(differenceOf(here, here)).toBeNull();
    expect(differenceOf({ data: '', limits: '' }, here)).toBeNull();
  });

  it('says which of the two differ, with both', () => {
    expect(differenceOf({ ...here, data: '00000000' }, here)).toContain('00000000 there, 7c1e94b0 here');
    expect(differenceOf({ ...here, limits: 'own.1' }, here)).toContain('own.1 there, own.2 here');
  });
});
