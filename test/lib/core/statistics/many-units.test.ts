import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { binomialCdf } from '#lib/core/statistics/distributions.ts';
import {
  binomialFunnel,
  binomialFunnelLimits,
  poissonFunnel,
  poissonFunnelLimits
} from '#lib/core/statistics/funnel.ts';
import { shrinkRates } from '#lib/core/statistics/gamma-poisson.ts';
import { marshallRates } from '#lib/core/statistics/marshall.ts';
import { benjaminiHochberg } from '#lib/core/statistics/multiplicity.ts';
import { jamesStein } from '#lib/core/statistics/shrinkage.ts';
import { must } from '../../../reference/method.ts';

const pValues = fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 1, maxLength: 40 });

describe('Benjamini-Hochberg', () => {
  it('keeps the order of the p values and never lowers one', () => {
    fc.assert(
      fc.property(pValues, (p) => {
        const { adjusted } = benjaminiHochberg(p, 0.1);
        const order = p.map((_, i) => i).sort((i, j) => (p[i] ?? NaN) - (p[j] ?? NaN));
        order.forEach((i, rank) => {
          expect(adjusted[i]).toBeGreaterThanOrEqual(p[i] ?? NaN);
          expect(adjusted[i]).toBeLessThanOrEqual(1);
          const before = order[rank - 1];
          if (before !== undefined) expect(adjusted[i]).toBeGreaterThanOrEqual(adjusted[before] ?? NaN);
        });
      })
    );
  });

  it('rejects by the step-up definition', () => {
    fc.assert(
      fc.property(pValues, fc.double({ min: 0.01, max: 0.5, noNaN: true }), (p, q) => {
        const sorted = [...p].sort((x, y) => x - y);
        const most = sorted.reduce((k, x, i) => (x <= ((i + 1) / p.length) * q ? i + 1 : k), 0);
        expect(benjaminiHochberg(p, q).rejected).toBe(most);
      })
    );
  });

  it('leaves NaN out of the family', () => {
    const found = benjaminiHochberg([0.01, NaN, 0.03], 0.05);
    expect(found.family).toBe(2);
    expect([...found.adjusted]).toEqual([0.02, NaN, 0.03]);
    expect(benjaminiHochberg([0.5], 0.05)).toMatchObject({ rejected: 0, cutoff: NaN });
  });
});

describe('a funnel', () => {
  const totals = [50, 80, 400, 0, 120, 30, 900, 61, 250, 75, 310, 44];
  const events = [5, 12, 40, 0, 9, 8, 101, 3, 61, 2, 30, 4];

  it('narrows with size and holds its target', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 5, max: 4000 }),
        fc.double({ min: 0.01, max: 0.6, noNaN: true }),
        (n, target) => {
          const [inner, outer] = [
            binomialFunnelLimits(target, n, 0.95),
            binomialFunnelLimits(target, n, 0.998)
          ];
          expect(inner.lower).toBeGreaterThanOrEqual(outer.lower);
          expect(inner.upper).toBeLessThanOrEqual(outer.upper);
          expect(outer.lower).toBeGreaterThanOrEqual(0);
          expect(outer.upper).toBeLessThanOrEqual(1);
          // The interpolated count lies within the one whose chance first reaches the share.
          expect(binomialCdf(Math.ceil(inner.upper * n - 1e-9), n, target)).toBeGreaterThanOrEqual(
            0.975 - 1e-9
          );
          expect(binomialCdf(Math.ceil(inner.upper * n - 1e-9) - 1, n, target)).toBeLessThan(0.975);
        }
      )
    );
  });

  it('leaves units without size out of everything', () => {
    const funnel = must(binomialFunnel(events, totals));
    const without = must(
      binomialFunnel(
        events.filter((_, i) => i !== 3),
        totals.filter((_, i) => i !== 3)
      )
    );
    expect(funnel.value[3]).toBeNaN();
    expect(funnel.pValue[3]).toBeNaN();
    expect(funnel.target).toBeCloseTo(without.target, 14);
    expect(funnel.phi).toBeCloseTo(without.phi, 12);
    expect([...funnel.pValue].filter((p) => !Number.isNaN(p)).length).toBe(11);
  });

  it('does not widen for fewer than ten units', () => {
    const few = must(binomialFunnel([2, 90, 10, 300], [100, 200, 400, 500]));
    expect(few.betweenVariance).toBeGreaterThan(0);
    expect(few.adjusted).toBe(false);
  });

  it('widens for units that differ beyond chance, and p values grow with it', () => {
    const spread = must(
      binomialFunnel(
        events.map((d, i) => (i % 2 === 0 ? 2 * d : d)),
        totals
      )
    );
    expect(spread.adjusted).toBe(true);
    const largest = 6;
    expect(Math.abs(spread.additive[largest] ?? NaN)).toBeLessThan(Math.abs(spread.z[largest] ?? NaN));
    const limits = binomialFunnelLimits(spread.target, 900, 0.95);
    const wide = binomialFunnelLimits(spread.target, 900, 0.95, spread.betweenVariance);
    expect(wide.upper - wide.lower).toBeGreaterThan(limits.upper - limits.lower);
  });

  it('of ratios stands at 1 and matches a binomial one for rare events', () => {
    const limits = poissonFunnelLimits(20, 0.95);
    const binomial = binomialFunnelLimits(20 / 1e6, 1e6, 0.95);
    expect(limits.lower * 20).toBeCloseTo(binomial.lower * 1e6, 2);
    expect(limits.upper * 20).toBeCloseTo(binomial.upper * 1e6, 2);
    const funnel = must(poissonFunnel([3, 25, 40], [5, 20, 41]));
    expect(funnel.target).toBe(1);
    expect(funnel.z[1]).toBeCloseTo((25 - 20) / Math.sqrt(20), 12);
  });

  it('has exact p values where few events are expected', () => {
    const funnel = must(poissonFunnel([4, 20], [1, 20]));
    // P(X >= 4) for mean 1, doubled.
    expect(funnel.pValue[0]).toBeCloseTo(2 * (1 - Math.exp(-1) * (1 + 1 + 1 / 2 + 1 / 6)), 12);
  });

  it('says when there is nothing to compare', () => {
    expect(binomialFunnel([0], [0])).toMatchObject({ estimable: false, reason: 'no-exposure' });
    expect(binomialFunnel([0, 0], [5, 9])).toMatchObject({ estimable: false, reason: 'no-variation' });
  });
});

describe('rates drawn together', () => {
  const events = [37, 38, 3, 0, 12, 5, 60, 9, 0, 21];
  const exposure = [11.3, 12.2, 4.4, 0.5, 9, 8, 20, 7, 0, 3];

  it('lie between each unit and the whole', () => {
    const rates = must(shrinkRates(events, exposure));
    rates.mean.forEach((mean, i) => {
      if (exposure[i] === 0) {
        expect(mean).toBeNaN();
        return;
      }
      const raw = (events[i] ?? NaN) / (exposure[i] ?? NaN);
      const priorMean = rates.shape / rates.rate;
      expect(mean).toBeGreaterThanOrEqual(Math.min(raw, priorMean) - 1e-9);
      expect(mean).toBeLessThanOrEqual(Math.max(raw, priorMean) + 1e-9);
      expect(rates.lower[i]).toBeLessThan(mean);
      expect(rates.upper[i]).toBeGreaterThan(mean);
    });
  });

  it('have ranks that add up to those of a plain ranking', () => {
    const { expectedRank } = must(shrinkRates(events, exposure));
    const ranks = [...expectedRank].filter((rank) => !Number.isNaN(rank));
    expect(ranks.reduce((sum, rank) => sum + rank, 0)).toBeCloseTo((9 * 10) / 2, 9);
  });

  it('are all the pooled rate where chance explains every difference', () => {
    const same = must(shrinkRates([20, 6, 11, 16, 9], [40, 12, 22, 31, 18]));
    expect(same.excess).toBe(false);
    expect(new Set(same.mean)).toEqual(new Set([same.pooledRate]));
    expect(new Set(same.expectedRank)).toEqual(new Set([3]));
    const moments = must(marshallRates([20, 6, 11, 16, 9], [40, 12, 22, 31, 18]));
    expect(moments.betweenVariance).toBe(0);
    expect(moments.rates[2]).toBe(moments.pooledRate);
  });

  it('do not exist for one unit or no event', () => {
    expect(shrinkRates([3], [5])).toMatchObject({ estimable: false, reason: 'too-few', have: 1, need: 2 });
    expect(shrinkRates([0, 0], [5, 5])).toMatchObject({ estimable: false, reason: 'no-variation' });
    expect(marshallRates([1], [0])).toMatchObject({ estimable: false, reason: 'no-exposure' });
    expect(jamesStein([1, 2, 3], 1)).toMatchObject({ estimable: false, have: 3, need: 4 });
  });

  it('keep nothing of differences smaller than their noise', () => {
    const shrunken = must(jamesStein([1, 1.1, 0.9, 1.05, NaN], 1));
    expect(shrunken.factor).toBe(0);
    expect([...shrunken.values]).toEqual([1.0125, 1.0125, 1.0125, 1.0125, NaN]);
  });
});
