import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cChart, laneyPChart, laneyUChart, pChart, uChart } from '#lib/core/statistics/charts/rate-chart.ts';
import { must } from '../../../../reference/method.ts';

const periods = fc.array(
  fc.integer({ min: 1, max: 5000 }).chain((n) => fc.tuple(fc.integer({ min: 0, max: n }), fc.constant(n))),
  { minLength: 3, maxLength: 30 }
);

describe('a chart of proportions', () => {
  it('has limits between 0 and 1 around its centre, narrower for larger periods', () => {
    fc.assert(
      fc.property(periods, (rows) => {
        const [events, totals] = [rows.map(([x]) => x), rows.map(([, n]) => n)];
        const chart = must(pChart(events, totals));
        chart.lower.forEach((lower, i) => {
          expect(lower).toBeGreaterThanOrEqual(0);
          expect(lower).toBeLessThanOrEqual(chart.centre);
          expect(chart.upper[i]).toBeLessThanOrEqual(1);
          expect(chart.upper[i]).toBeGreaterThanOrEqual(chart.centre);
        });
        const signals = rows
          .map(([x, n], i) => ({ p: x / n, i }))
          .filter(({ p, i }) => p > (chart.upper[i] ?? NaN) || p < (chart.lower[i] ?? NaN));
        expect(chart.signals).toEqual(signals.map(({ i }) => i));
      })
    );
  });

  it('is the plain one where the spread from period to period is chance', () => {
    const [events, totals] = [
      [12, 8, 6, 9, 10, 12],
      [100, 80, 80, 100, 110, 110]
    ];
    const [plain, laney] = [must(pChart(events, totals)), must(laneyPChart(events, totals))];
    expect(laney).toEqual(plain);
    const published = must(laneyPChart(events, totals, { floorAtOne: false }));
    expect(published.dispersion).toBeLessThan(1);
    expect((published.upper[0] ?? NaN) - published.centre).toBeCloseTo(
      published.dispersion * ((plain.upper[0] ?? NaN) - plain.centre),
      12
    );
  });

  it('leaves empty periods out, with the ranges across them', () => {
    const chart = must(laneyPChart([5, 0, 9, 6, 30], [100, 0, 100, 100, 100]));
    expect(chart.rate[1]).toBeNaN();
    expect(chart.upper[1]).toBeNaN();
    expect(chart.signals).not.toContain(1);
    expect(chart.centre).toBeCloseTo(50 / 400, 14);
    // Two neighbouring pairs are left: 9 to 6 and 6 to 30.
    const unit = Math.sqrt((chart.centre * (1 - chart.centre)) / 100);
    expect(chart.dispersion).toBeCloseTo((0.03 + 0.24) / 2 / unit / 1.128, 10);
  });

  it('takes centre and spread from its baseline alone', () => {
    const [events, totals] = [
      [5, 7, 6, 40, 41],
      [100, 100, 100, 100, 100]
    ];
    const chart = must(pChart(events, totals, { baseline: [0, 3] }));
    expect(chart.centre).toBeCloseTo(0.06, 14);
    expect(chart.signals).toEqual([3, 4]);
    expect(() => pChart(events, totals, { baseline: [3, 9] })).toThrow(/baseline: 3 to 9/);
  });

  it('says when there is nothing to chart', () => {
    expect(pChart([0], [0])).toMatchObject({ estimable: false, reason: 'no-exposure' });
    expect(laneyPChart([1, 0, 1], [9, 0, 9])).toMatchObject({ estimable: false, reason: 'too-few' });
    expect(() => pChart([1, 2], [3])).toThrow(/periods: 2 and 1/);
  });
});

describe('a chart of event rates', () => {
  it('is that of counts where exposure is 1', () => {
    expect(must(uChart([4, 9, 2, NaN], [1, 1, 1, NaN]))).toEqual(must(cChart([4, 9, 2, NaN])));
  });

  it('does not change when exposure is counted in other units', () => {
    const [events, exposure] = [
      [14, 12, 20, 11, 7],
      [10, 8, 13, 10, 9.5]
    ];
    const chart = must(laneyUChart(events, exposure));
    const scaled = must(
      laneyUChart(
        events,
        exposure.map((e) => e * 1000)
      )
    );
    expect(scaled.dispersion).toBeCloseTo(chart.dispersion, 10);
    expect((scaled.upper[2] ?? NaN) * 1000).toBeCloseTo(chart.upper[2] ?? NaN, 10);
  });
});
