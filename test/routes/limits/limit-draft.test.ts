import { describe, expect, it } from 'vitest';
import { exampleLimits } from '#lib/data/settings/index.ts';
import { draftOf, revisionOf } from '../../../src/routes/limits/limit-draft.ts';

describe('a new revision of limits', () => {
  const draft = {
    ...draftOf(exampleLimits),
    name: 'Ours',
    reason: 'Operator manual rev 12',
    fromDay: '2031-06-01',
    percent: 2
  };

  it('follows the newest one, with its reason, and is confirmed by being entered', () => {
    const { set } = revisionOf(draft, [exampleLimits]);
    expect(set).toMatchObject({
      name: 'Ours',
      revision: 2,
      fromMs: Date.parse('2031-06-01'),
      confirmed: true,
      reason: 'Operator manual rev 12',
      width: { percent: 2, floorKg: null, floorGaugeSteps: 5 }
    });
  });

  it.each([
    [{ ...draft, reason: '' }, 'reason'],
    [{ ...draft, name: ' ' }, 'name'],
    [{ ...draft, percent: null }, 'percentage'],
    [{ ...draft, orderedKg: null }, 'orders']
  ])('is refused in words while something is missing', (wrong, words) => {
    expect(revisionOf(wrong, [exampleLimits]).problem).toContain(words);
  });

  it('cannot start before the one it follows', () => {
    const later = { ...exampleLimits, fromMs: Date.parse('2031-07-01') };
    expect(revisionOf(draft, [later]).problem).toContain('before');
  });

  const exception = { type: 'AV150', station: '', percent: 2, floorKg: null, floorGaugeSteps: 3 };

  it('carries exceptions for a type or a station, a blank for any', () => {
    const { set } = revisionOf({ ...draft, exceptions: [exception] }, [exampleLimits]);
    expect(set?.exceptions).toEqual([
      { type: 'AV150', station: null, width: { percent: 2, floorKg: null, floorGaugeSteps: 3 } }
    ]);
    expect(set === null ? [] : draftOf(set).exceptions).toEqual([exception]);
  });

  it.each([
    [[{ ...exception, type: ' ' }], 'type or a station'],
    [[{ ...exception, percent: null }], 'percentage'],
    [[exception, { ...exception, percent: 4 }], 'two exceptions']
  ])('is refused in words while an exception is not whole', (exceptions, words) => {
    expect(revisionOf({ ...draft, exceptions }, [exampleLimits]).problem).toContain(words);
  });
});
