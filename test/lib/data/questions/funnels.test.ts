import { describe, expect, it } from 'vitest';
import { answer, type FunnelUnit } from '#lib/data/questions/index.ts';
import { contextOf, uplift } from './uplifts.ts';

/** Records of one station: so many uplifts of 8,000 kg, the first `outside` of them 5 % off. */
function station(name: string, count: number, outside: number, more: Parameters<typeof uplift>[3] = {}) {
  return Array.from({ length: count }, (_none, i) => {
    const id = `${name}${more.type ?? ''}${i}`;
    const one = { ticket: id, tail: id, time: '2031-01-10T00:00:00Z', ...more };
    return uplift(i, name, i < outside ? 400 : 0, one);
  });
}

const byName = (units: readonly FunnelUnit[]) => new Map(units.map((unit) => [unit.name, unit]));

describe('the funnels of stations', () => {
  it('hold each plain rate against that of all, with the limits for its number', () => {
    const { plain, judged } = answer(
      contextOf([...station('JARV', 400, 20), ...station('JBEL', 100, 10), ...station('JCOD', 100, 45)]),
      'funnels',
      { filter: {}, by: 'station' }
    );
    expect(judged).toBe(600);
    expect(plain?.target).toBeCloseTo(75 / 600, 12);
    const units = byName(plain?.units ?? []);
    expect(units.get('JCOD')).toMatchObject({ judged: 100, outside: 45, verdict: 'above', pastChance: true });
    expect(units.get('JCOD')?.expected).toBeCloseTo((100 * 75) / 600, 10);
    expect(units.get('JBEL')?.verdict).toBe('notToldApart');
    const [inner, outer] = units.get('JBEL')?.bounds ?? [];
    expect(outer?.upper).toBeGreaterThan(inner?.upper ?? NaN);
    // Fewer than ten stations: how they usually differ cannot be judged, so no widened limits.
    expect(plain?.adjusted).toBe(false);
    expect(plain?.curves).toHaveLength(2);
    for (const { points } of plain?.curves ?? []) expect(points.at(-1)?.size).toBeCloseTo(400, 9);
  });

  it('expect of each what the same types have outside: a station of hard work is not blamed for it', () => {
    // Small type: half outside anywhere; large type: one in ten. JBEL serves mostly the small one.
    const small = { type: 'TN070' };
    const large = { type: 'AV150' };
    const context = contextOf([
      ...station('JARV', 40, 20, small),
      ...station('JARV', 200, 20, large),
      ...station('JBEL', 160, 80, small),
      ...station('JBEL', 40, 4, large)
    ]);
    const { plain, fair } = answer(context, 'funnels', { filter: {}, by: 'station' });
    expect(byName(plain?.units ?? []).get('JBEL')?.verdict).toBe('above');
    for (const unit of fair?.units ?? []) {
      expect(unit.value).toBeCloseTo(1, 10);
      expect(unit.verdict).toBe('notToldApart');
    }
    expect(byName(fair?.units ?? []).get('JBEL')?.expected).toBeCloseTo(84, 10);
  });

  it('leave out what only one station has, and say how much', () => {
    const context = contextOf([
      ...station('JARV', 60, 6),
      ...station('JBEL', 60, 6),
      ...station('JBEL', 50, 40, { type: 'AV310' })
    ]);
    const { fair } = answer(context, 'funnels', { filter: {}, by: 'station' });
    expect(fair?.alone).toBe(50);
    expect(byName(fair?.units ?? []).get('JBEL')).toMatchObject({ judged: 60, outside: 6 });
  });

  it('give nine uplifts a place, but no verdict and no say in how stations differ', () => {
    const { plain } = answer(
      contextOf([...station('JARV', 200, 10), ...station('JBEL', 200, 10), ...station('JHOS', 9, 9)]),
      'funnels',
      { filter: {}, by: 'station' }
    );
    const tiny = byName(plain?.units ?? []).get('JHOS');
    expect(tiny).toMatchObject({ judged: 9, value: 1, verdict: 'tooFew', pastChance: true });
    expect(plain?.target).toBeCloseTo(20 / 400, 12);
  });

  it('tell apart by sizes and seasons too, and are not to be had where nothing is outside', () => {
    const winter = { time: '2031-01-10T00:00:00Z' };
    const summer = { time: '2031-07-10T00:00:00Z' };
    const apart = contextOf([...station('JARV', 40, 4, winter), ...station('JBEL', 40, 4, summer)]);
    const { plain, fair } = answer(apart, 'funnels', { filter: {}, by: 'station' });
    expect(plain?.units).toHaveLength(2);
    expect(fair).toBeNull();
    const calm = contextOf([...station('JARV', 40, 0), ...station('JBEL', 40, 0)]);
    expect(answer(calm, 'funnels', { filter: {}, by: 'station' })).toMatchObject({ plain: null, fair: null });
  });
});
