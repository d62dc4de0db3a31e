import * as S from '#lib/core/statistics/index.ts';
import { must, type Method } from './method.ts';
import { flatNumbers, numberOf, numberOr, numbersOf, type Fields } from './read-case.ts';

const conf = (input: Fields): number => numberOr(input, 'conf', 0.95);

/** The other two-sided p of a binomial count, which the reference also gives: all outcomes as unlikely or more. */
function minimumLikelihood(x: number, n: number, p: number): number {
  const chances = Array.from(
    { length: n + 1 },
    (_, k) => S.binomialCdf(k, n, p) - S.binomialCdf(k - 1, n, p)
  );
  const observed = (chances[x] ?? NaN) * (1 + 1e-7);
  return chances.reduce((sum, chance) => (chance <= observed ? sum + chance : sum), 0);
}

export const intervals: Record<string, Method> = {
  'interval.wilson': (i) => ({ ...S.wilson(numberOf(i, 'x'), numberOf(i, 'n'), conf(i)) }),
  'interval.clopperPearson': (i) => ({ ...S.clopperPearson(numberOf(i, 'x'), numberOf(i, 'n'), conf(i)) }),
  'interval.jeffreys': (i) => ({ ...S.jeffreys(numberOf(i, 'x'), numberOf(i, 'n'), conf(i)) }),
  'interval.newcombeDifference': (i) => ({
    ...S.newcombeDifference(
      numberOf(i, 'x1'),
      numberOf(i, 'n1'),
      numberOf(i, 'x2'),
      numberOf(i, 'n2'),
      conf(i)
    )
  }),
  'interval.poisson': (i) => ({
    ...S.poissonExact(numberOf(i, 'count'), numberOr(i, 'exposure', 1), conf(i))
  }),
  'test.rateRatio': (i) => {
    const [y1, e1, y2, e2] = [numberOf(i, 'y1'), numberOf(i, 'e1'), numberOf(i, 'y2'), numberOf(i, 'e2')];
    const ratio = S.rateRatio(y1, e1, y2, e2, conf(i));
    return { ...ratio, pDoubled: ratio.pValue, pMinLik: minimumLikelihood(y1, y1 + y2, e1 / (e1 + e2)) };
  },
  'adjust.bh': (i) => ({ ...S.benjaminiHochberg(numbersOf(i, 'p'), numberOf(i, 'q')) })
};

export const units: Record<string, Method> = {
  'eb.gammaPoisson': (i) => {
    const rates = must(S.shrinkRates(numbersOf(i, 'y'), numbersOf(i, 'exposure')));
    return {
      shape: rates.shape,
      rate: rates.rate,
      glmNbTheta: rates.shape,
      logLik: rates.logLikelihood,
      pooledRate: rates.pooledRate,
      posteriorMean: rates.mean,
      lower05: rates.lower,
      upper95: rates.upper,
      expectedRank: rates.expectedRank
    };
  },
  'eb.moment': (i) => {
    const rates = must(S.marshallRates(numbersOf(i, 'y'), numbersOf(i, 'exposure')));
    return {
      gamma: rates.pooledRate,
      phi: rates.betweenVariance,
      est: rates.rates,
      first5: rates.rates.slice(0, 5)
    };
  },
  'shrink.jamesStein': (i) => {
    const n = numberOr(i, 'n', NaN);
    const y = 'hits' in i ? numbersOf(i, 'hits').map((hits) => hits / n) : numbersOf(i, 'y');
    const average = S.mean(y);
    const shrunken = must(S.jamesStein(y, numberOr(i, 'variance', (average * (1 - average)) / n)));
    const later = 'laterRate' in i ? numbersOf(i, 'laterRate') : [];
    const squares = (values: ArrayLike<number>): number =>
      later.reduce((sum, rate, k) => sum + (rate - (values[k] ?? NaN)) ** 2, 0);
    return {
      mean: shrunken.mean,
      shrinkFactor: shrunken.factor,
      js: shrunken.values,
      sseRaw: squares(y),
      sseJS: squares(shrunken.values)
    };
  },
  simpson: (i) => {
    const [first, second] = [flatNumbers(i['A']), flatNumbers(i['B'])];
    const strata = Array.from({ length: first.length / 2 }, (_, s) => ({
      x1: first[2 * s] ?? NaN,
      n1: first[2 * s + 1] ?? NaN,
      x2: second[2 * s] ?? NaN,
      n2: second[2 * s + 1] ?? NaN
    }));
    const compared = must(S.compareStratified(strata));
    return {
      crudeA: compared.crude1,
      crudeB: compared.crude2,
      standardisedA: compared.standardised1,
      standardisedB: compared.standardised2,
      mantelHaenszelOR: compared.oddsRatio,
      mhChi2NoCorrection: compared.chiSquare,
      mhP: compared.pValue
    };
  },
  funnel: (i) => {
    const [d, n] = [numbersOf(i, 'd'), numbersOf(i, 'n')];
    const funnel = must(S.binomialFunnel(d, n, { winsorised: numberOr(i, 'winsor', 0.1) }));
    const limits = (coverage: number): S.Interval[] =>
      n.map((size) => S.binomialFunnelLimits(funnel.target, size, coverage));
    return {
      target: funnel.target,
      lower95: limits(0.95).map((limit) => limit.lower),
      upper95: limits(0.95).map((limit) => limit.upper),
      lower998: limits(0.998).map((limit) => limit.lower),
      upper998: limits(0.998).map((limit) => limit.upper),
      z: funnel.z,
      phi: funnel.phi,
      tau2: funnel.betweenVariance,
      zAdditive: funnel.additive,
      zMultiplicative: funnel.multiplicative
    };
  }
};
