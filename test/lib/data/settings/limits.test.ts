import { describe, expect, it } from 'vitest';
import {
  exampleLimits,
  higherAmountLimits,
  limitsAt,
  widthFor,
  type LimitSet
} from '#lib/data/settings/index.ts';

const day = (text: string) => Date.parse(text);
const revision = (number: number, from: string | null, until: string | null): LimitSet => ({
  ...exampleLimits,
  revision: number,
  fromMs: from === null ? null : day(from),
  untilMs: until === null ? null : day(until)
});

describe('limits', () => {
  it('hold by the revision whose dates cover the day, the latest where two do', () => {
    const sets = [
      revision(1, null, null),
      revision(2, '2031-03-01', null),
      revision(3, '2031-06-01', '2031-08-31')
    ];
    expect(limitsAt(sets, day('2031-02-28'))?.revision).toBe(1);
    expect(limitsAt(sets, day('2031-03-01'))?.revision).toBe(2);
    expect(limitsAt(sets, day('2031-07-01'))?.revision).toBe(3);
    expect(limitsAt(sets, day('2031-09-01'))?.revision).toBe(2);
  });

  it('do not hold on a day that no revision covers', () => {
    expect(limitsAt([revision(1, '2031-03-01', null)], day('2031-01-01'))).toBeNull();
  });

  it('take the exception that names most of type and station', () => {
    const width = (percent: number) => ({ percent, floorKg: 0, floorGaugeSteps: 0 });
    const set: LimitSet = {
      ...exampleLimits,
      exceptions: [
        { type: 'AV150', station: null, width: width(1) },
        { type: 'AV150', station: 'JKES', width: width(2) },
        { type: null, station: 'JKES', width: width(4) }
      ]
    };
    expect(widthFor(set, 'AV150', 'JARV').percent).toBe(1);
    expect(widthFor(set, 'AV150', 'JKES').percent).toBe(2);
    expect(widthFor(set, 'TN070', 'JKES').percent).toBe(4);
    expect(widthFor(set, 'TN070', 'JARV').percent).toBe(3);
  });

  it('offer the superseded rule of CAO 20.2 Issue 7 (2004) as 3 % of the higher amount', () => {
    expect(higherAmountLimits.width.percent).toBe(3);
    expect(higherAmountLimits.base).toBe('higherOfExpectedAndIndicated');
  });

  it('are never taken for confirmed until somebody says so', () => {
    expect(exampleLimits.confirmed).toBe(false);
    expect(higherAmountLimits.confirmed).toBe(false);
  });
});
