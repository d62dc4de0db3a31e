import { describe, expect, it } from 'vitest';
import { timeTicks } from '#lib/charts/axes/time-ticks.ts';

const at = (text: string) => Date.parse(`${text}Z`);

describe('timeTicks', () => {
  it('names months in UTC, the year once where it begins, whatever the zone of the machine', () => {
    const ticks = timeTicks([at('2021-01-04T00:00'), at('2022-06-27T00:00')], 400);
    expect(ticks.map((tick) => [tick.label, tick.year])).toEqual([
      ['Apr', '2021'],
      ['Jul', ''],
      ['Oct', ''],
      ['Jan', '2022'],
      ['Apr', '']
    ]);
    expect(ticks.every((tick) => new Date(tick.value).getUTCDate() === 1)).toBe(true);
  });

  it('names years alone when years are the step', () => {
    const ticks = timeTicks([at('2010-01-01T00:00'), at('2021-01-01T00:00')], 300);
    expect(ticks.map((tick) => tick.label)).toContain('2014');
    expect(ticks.every((tick) => tick.year === '')).toBe(true);
  });

  it('names days, and hours between them', () => {
    expect(timeTicks([at('2021-03-01T00:00'), at('2021-03-08T00:00')], 400)[1]?.label).toBe('2 Mar');
    const hours = timeTicks([at('2021-03-01T00:00'), at('2021-03-02T00:00')], 300).map((tick) => tick.label);
    expect(hours).toEqual(['1 Mar', '06:00', '12:00', '18:00', '2 Mar']);
  });

  it('has none for an empty stretch', () => {
    expect(timeTicks([5, 5], 300)).toEqual([]);
  });
});
