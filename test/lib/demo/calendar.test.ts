import { describe, expect, it } from 'vitest';
import { clockOf, dateOf, demoDays, demoMonths, instantOf, isoOf } from '#lib/demo/calendar.ts';

describe('the calendar of the demo', () => {
  it('holds eighteen whole months of 548 days without a gap', () => {
    expect(demoMonths).toHaveLength(18);
    expect(demoMonths[0]).toEqual({ name: '2025-04', fromDay: 0, untilDay: 30 });
    expect(demoMonths.at(-1)).toEqual({ name: '2026-09', fromDay: 518, untilDay: demoDays });
    for (const [index, month] of demoMonths.entries()) {
      expect(month.fromDay).toBe(demoMonths[index - 1]?.untilDay ?? 0);
    }
  });

  it.each([
    [0, '2025-04-01T00:00Z'],
    [1439, '2025-04-01T23:59Z'],
    [-30, '2025-03-31T23:30Z'],
    [548 * 1440 - 1, '2026-09-30T23:59Z'],
    // A slip of a year at the very end.
    [(548 + 365) * 1440, '2027-10-01T00:00Z']
  ])('writes minute %i as %s, as the platform does', (minute, text) => {
    expect(isoOf(minute)).toBe(text);
    expect(new Date(instantOf(minute)).toISOString()).toBe(text.replace('Z', ':00.000Z'));
  });

  it('writes dates and clocks with two digits', () => {
    expect(dateOf(9 * 1440)).toEqual({ year: '2025', month: '04', day: '10' });
    expect(clockOf(9 * 1440 + 65)).toBe('01:05');
    expect(() => dateOf(2000 * 1440)).toThrow('need a minute of the demo');
  });
});
