import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  betaCdf,
  betaQuantile,
  binomialCdf,
  binomialUpper,
  chiSquareUpper,
  fUpper,
  gammaCdf,
  gammaQuantile,
  normalCdf,
  normalQuantile,
  normalTwoSided,
  poissonCdf,
  poissonUpper
} from '#lib/core/statistics/distributions.ts';

const probability = fc.double({ min: 1e-6, max: 1 - 1e-6, noNaN: true });

function relative(got: number, want: number): number {
  return Math.abs(got - want) / Math.abs(want);
}

/** Binomial chances by their own recurrence, apart from the incomplete beta function. */
function binomialTerms(n: number, p: number): number[] {
  const terms = [(1 - p) ** n];
  for (let k = 1; k <= n; k += 1) terms.push(((terms[k - 1] ?? NaN) * (n - k + 1) * p) / (k * (1 - p)));
  return terms;
}

describe('the normal distribution', () => {
  // Abramowitz & Stegun 1964, tables 26.1 and 26.2; the far tail from memory, agreeing with R pnorm.
  it.each([
    [0, 0.5],
    [1, 0.841344746068543],
    [1.96, 0.97500210485178],
    [-3, 0.001349898031630095],
    [-8, 6.22096057427178e-16],
    [-12, 1.7764821120776e-33]
  ])('has its tail at z = %d', (z, want) => {
    expect(relative(normalCdf(z), want)).toBeLessThan(1e-12);
  });

  it('is undone by its quantile', () => {
    fc.assert(fc.property(probability, (p) => relative(normalCdf(normalQuantile(p)), p) < 1e-11));
  });

  it('has two tails twice as large as one', () => {
    expect(relative(normalTwoSided(2.5), 2 * normalCdf(-2.5))).toBeLessThan(1e-13);
  });

  it('has no quantile outside 0 to 1', () => {
    expect(normalQuantile(0)).toBe(-Infinity);
    expect(normalQuantile(1)).toBe(Infinity);
    expect(normalQuantile(1.1)).toBeNaN();
  });
});

describe('beta and gamma distributions', () => {
  it('are undone by their quantiles', () => {
    const shape = fc.double({ min: 1, max: 5000, noNaN: true });
    fc.assert(
      fc.property(probability, shape, shape, (p, a, b) => {
        expect(relative(betaCdf(betaQuantile(p, a, b), a, b), p)).toBeLessThan(1e-7);
        expect(relative(gammaCdf(gammaQuantile(p, a, b), a, b), p)).toBeLessThan(1e-7);
      }),
      { numRuns: 200 }
    );
  });

  it('have their closed forms where there is one', () => {
    expect(betaCdf(0.3, 1, 4)).toBeCloseTo(1 - 0.7 ** 4, 14);
    expect(betaQuantile(0.5, 1, 2)).toBeCloseTo(1 - Math.SQRT1_2, 13);
    expect(gammaCdf(2, 1, 3)).toBeCloseTo(1 - Math.exp(-6), 14);
  });

  it('are symmetric for large counts, where the library stops too early', () => {
    expect(betaCdf(0.5, 50_000, 50_000)).toBeCloseTo(0.5, 8);
    expect(betaCdf(0.5, 500_000, 500_000)).toBeCloseTo(0.5, 7);
  });
});

describe('counts', () => {
  it('sum to the binomial chances', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 60 }),
        fc.double({ min: 0.02, max: 0.98, noNaN: true }),
        (n, p) => {
          let below = 0;
          binomialTerms(n, p).forEach((term, k) => {
            expect(binomialUpper(k, n, p)).toBeCloseTo(1 - below, 10);
            below += term;
            expect(binomialCdf(k, n, p)).toBeCloseTo(below, 10);
          });
        }
      ),
      { numRuns: 50 }
    );
  });

  it('keep the tail of a binomial with no events', () => {
    expect(relative(binomialCdf(0, 1000, 0.3), 0.7 ** 1000)).toBeLessThan(1e-9);
  });

  it('sum to the Poisson chances', () => {
    let [term, below] = [Math.exp(-7.5), 0];
    for (let k = 0; k < 30; k += 1) {
      expect(poissonUpper(k, 7.5)).toBeCloseTo(1 - below, 12);
      below += term;
      expect(poissonCdf(k, 7.5)).toBeCloseTo(below, 12);
      term *= 7.5 / (k + 1);
    }
    expect(poissonCdf(500, 10)).toBe(1);
  });
});

describe('upper tails', () => {
  // NIST/SEMATECH e-Handbook 1.3.6.7.3 and 1.3.6.7.4: critical values at 5 %, printed to three digits.
  it.each([
    [chiSquareUpper(3.841, 1), 0.05],
    [chiSquareUpper(18.307, 10), 0.05],
    [fUpper(4.965, 1, 10), 0.05],
    [fUpper(2.978, 10, 10), 0.05]
  ])('agree with printed critical values: %d', (got, want) => {
    expect(Math.abs(got - want)).toBeLessThan(3e-5);
  });

  it('tie chi-square, F and the normal together', () => {
    expect(relative(chiSquareUpper(7, 1), normalTwoSided(Math.sqrt(7)))).toBeLessThan(1e-12);
    expect(relative(fUpper(7, 1, 1e7), chiSquareUpper(7, 1))).toBeLessThan(1e-4);
    expect(relative(chiSquareUpper(90, 2), Math.exp(-45))).toBeLessThan(1e-11);
  });
});
