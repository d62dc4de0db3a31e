import * as S from '#lib/core/statistics/index.ts';
import { simulateCrossed, type CrossedRecipe } from './crossed-generator.ts';
import { flatNumbers, groupsOf, isFields, numberOf, numberOr, numbersOf, type Fields } from './read-case.ts';

type Method = (input: Fields) => Fields;

/** The answer itself, or an error that says why there is none. */
export function must<T extends { readonly estimable: true }>(estimate: T | S.NotEstimable): T {
  if (!estimate.estimable) throw new Error(`not estimable: ${estimate.reason}, have ${estimate.have}`);
  return estimate;
}

// The reference counts from 1.
const fromOne = (indices: readonly number[]): number[] => indices.map((i) => i + 1);
const conf = (input: Fields): number => numberOr(input, 'conf', 0.95);

function rateChartFields(chart: S.RateChart): Fields {
  return {
    center: chart.centre,
    sigmaZ: chart.dispersion,
    p: chart.rate,
    u: chart.rate,
    ucl: chart.upper,
    lcl: chart.lower,
    signals: fromOne(chart.signals)
  };
}

/** The other two-sided p of a binomial count, which the reference also gives: all outcomes as unlikely or more. */
function minimumLikelihood(x: number, n: number, p: number): number {
  const chances = Array.from(
    { length: n + 1 },
    (_, k) => S.binomialCdf(k, n, p) - S.binomialCdf(k - 1, n, p)
  );
  const observed = (chances[x] ?? NaN) * (1 + 1e-7);
  return chances.reduce((sum, chance) => (chance <= observed ? sum + chance : sum), 0);
}

const intervals: Record<string, Method> = {
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

const charts: Record<string, Method> = {
  'chart.p': (i) => rateChartFields(must(S.pChart(numbersOf(i, 'defectives'), numbersOf(i, 'n')))),
  'chart.laneyP': (i) => {
    const [defectives, n] = [numbersOf(i, 'defectives'), numbersOf(i, 'n')];
    const plain = must(S.pChart(defectives, n));
    const laney = must(S.laneyPChart(defectives, n, { floorAtOne: false }));
    return { ...rateChartFields(laney), signalsPlainP: fromOne(plain.signals) };
  },
  'chart.c': (i) => rateChartFields(must(S.cChart(numbersOf(i, 'counts')))),
  'chart.u': (i) => rateChartFields(must(S.uChart(numbersOf(i, 'counts'), numbersOf(i, 'area')))),
  'chart.laneyU': (i) => {
    const [counts, area] = [numbersOf(i, 'counts'), numbersOf(i, 'area')];
    const plain = must(S.uChart(counts, area));
    const laney = must(S.laneyUChart(counts, area, { floorAtOne: false }));
    return { ...rateChartFields(laney), signalsPlainU: fromOne(plain.signals) };
  },
  'chart.g': (i) => {
    const chart = must(S.gapChart(numbersOf(i, 'between')));
    return {
      mean: chart.mean,
      ucl3: chart.threeSigmaUpper,
      p: chart.probability,
      median: chart.centre,
      uclProb: chart.upper,
      lclProb: chart.lower
    };
  },
  'chart.t': (i) => {
    const chart = must(S.timeGapChart(numbersOf(i, 'times')));
    return {
      center: chart.transformed.centre,
      mrbar: chart.transformed.meanMovingRange,
      ucl: chart.transformed.upper,
      lcl: chart.transformed.lower,
      centerBack: chart.centre,
      uclBack: chart.upper,
      lclBack: chart.lower
    };
  },
  'chart.imr': (i) => {
    const chart = must(S.individualsChart(numbersOf(i, 'x')));
    return {
      center: chart.centre,
      mrbar: chart.meanMovingRange,
      sigma: chart.sigma,
      ucl: chart.upper,
      lcl: chart.lower,
      mrUcl: chart.movingRangeUpper,
      signals: fromOne(chart.signals)
    };
  },
  'chart.ewma': (i) => {
    const [centre, weight, limit] = [numberOf(i, 'mu0'), numberOf(i, 'lambda'), numberOf(i, 'L')];
    const sigma = numberOf(i, 'sigma');
    const chart = S.ewma(numbersOf(i, 'x'), sigma, { centre, weight, limit });
    const steady = limit * S.ewmaSteadyDeviation(sigma, weight);
    return { ...ewmaFields(chart), uclInf: centre + steady, lclInf: centre - steady };
  },
  'chart.ewmaUnequal': (i) =>
    ewmaFields(
      S.ewmaUnequal(numbersOf(i, 'x'), numbersOf(i, 'variance'), {
        centre: numberOf(i, 'mu0'),
        weight: numberOf(i, 'lambda'),
        limit: numberOf(i, 'L')
      })
    ),
  'chart.cusum': (i) => {
    const [target, slack, limit] = [numberOf(i, 'target'), numberOf(i, 'K'), numberOf(i, 'H')];
    const chart = S.cusum(numbersOf(i, 'x'), { target, slack, limit });
    return {
      hi: chart.high,
      lo: chart.low,
      nHi: chart.highRun,
      nLo: chart.lowRun,
      signals: fromOne(chart.signals)
    };
  }
};

function ewmaFields(chart: S.EwmaChart): Fields {
  return {
    z: chart.average,
    sd: chart.standardDeviation,
    ucl: chart.upper,
    lcl: chart.lower,
    zscore: chart.zScore,
    signals: fromOne(chart.signals)
  };
}

const runLengths: Record<string, Method> = {
  'arl.ewma': (i) => {
    const [weight, limit] = [numberOf(i, 'lambda'), numberOf(i, 'L')];
    return {
      arl: S.ewmaRunLength(weight, limit, numberOr(i, 'shift', 0)),
      arlShift1: S.ewmaRunLength(weight, limit, 1),
      LforARL500: S.ewmaLimitFor(weight, 500)
    };
  },
  'arl.cusum': (i) => {
    const [slack, limit] = [numberOf(i, 'k'), numberOf(i, 'h')];
    return { arl: numbersOf(i, 'shift').map((shift) => S.cusumRunLength(slack, limit, shift)) };
  },
  'arl.cusumSiegmund': (i) => {
    const [slack, limit] = [numberOf(i, 'k'), numberOf(i, 'h')];
    const bothSides = (shift: number): number =>
      1 / (1 / S.siegmundRunLength(slack, limit, shift) + 1 / S.siegmundRunLength(slack, limit, -shift));
    return {
      oneSided0: S.siegmundRunLength(slack, limit),
      twoSided0: bothSides(0),
      twoSided1: bothSides(1),
      exactTwoSided0: S.cusumRunLength(slack, limit),
      exactTwoSided1: S.cusumRunLength(slack, limit, 1)
    };
  }
};

const changes: Record<string, Method> = {
  'changepoint.single': (i) => {
    const [x, margin] = [numbersOf(i, 'x'), numberOr(i, 'minseg', 2)];
    const change = must(S.oneChange(x, numberOf(i, 'sigma'), margin));
    return {
      k: change.before,
      stat: change.statistic,
      meanBefore: change.meanBefore,
      meanAfter: change.meanAfter,
      pValueSiegmund: S.siegmundTail(change.statistic, x.length, margin),
      rss0: change.squaresWithout,
      rss1: change.squaresWith
    };
  },
  'changepoint.pelt': (i) => {
    const found = must(S.severalChanges(numbersOf(i, 'x'), numberOf(i, 'sigma'), numberOf(i, 'penalty')));
    return { cpts: found.before, objective: found.objective };
  }
};

const summaries: Record<string, Method> = {
  'robust.location': (i) => {
    const x = numbersOf(i, 'x');
    const both = must(S.huberProposal2(x));
    return {
      median: S.median(x),
      mad: S.medianAbsoluteDeviation(x),
      huberMu: S.huberLocation(x),
      proposal2Mu: both.location,
      proposal2S: both.scale,
      Qn: S.qn(x),
      Sn: S.sn(x)
    };
  },
  'numeric.meanSd': (i) => {
    const pair = numbersOf(i, 'alternating');
    const x = Array.from({ length: numberOf(i, 'n') }, (_, k) =>
      k === 0 ? numberOf(i, 'first') : (pair[(k - 1) % pair.length] ?? NaN)
    );
    return { mean: S.mean(x), sd: S.standardDeviation(x) };
  },
  'quantile.types': (i) => {
    const sorted = S.sortedPresent(numbersOf(i, 'x'));
    const box = must(S.boxSummary(sorted));
    const bandwidth = S.silvermanBandwidth(sorted);
    const p = numberOr(i, 'p', 0.5);
    return {
      type6: S.quantileSortedType6(sorted, p),
      type7: S.quantileSorted(sorted, p),
      q: S.quantilesSorted(sorted, [0.05, 0.25, 0.5, 0.75, 0.95]),
      whiskers: [box.lowerWhisker, box.upperWhisker],
      nrd0: bandwidth,
      sd: S.standardDeviation(sorted),
      kdeAtMedian: S.kernelDensity(sorted, [box.median], bandwidth)
    };
  },
  'spread.tests': (i) => {
    const groups = groupsOf(i, 'groups');
    const bf = must(S.brownForsythe(groups));
    const levene = must(S.levene(groups));
    const bartlett = must(S.bartlett(groups));
    const fligner = must(S.flignerKilleen(groups));
    const kruskal = must(S.kruskalWallis(groups));
    return {
      brownForsythe: bf.f,
      dfB: bf.dfBetween,
      dfW: bf.dfWithin,
      pBrownForsythe: bf.pValue,
      leveneMean: levene.f,
      pLeveneMean: levene.pValue,
      bartlett: bartlett.chiSquare,
      pBartlett: bartlett.pValue,
      fligner: fligner.chiSquare,
      pFligner: fligner.pValue,
      kruskal: kruskal.chiSquare,
      pKruskal: kruskal.pValue
    };
  },
  'season.harmonic': (i) => {
    const fit = must(S.fitSeason(numbersOf(i, 'y'), numbersOf(i, 'month')));
    return { intercept: fit.levels, cos: fit.cosine, sin: fit.sine, residualSd: fit.residualSd };
  }
};

const units: Record<string, Method> = {
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

const RECIPE_FIELDS = [
  'seed',
  'nT',
  'nM',
  'N',
  'mu',
  'sdT',
  'sdM',
  's0',
  'kg',
  'blocks',
  'pHome',
  'pGross'
] as const;

function recipeOf(input: Fields): CrossedRecipe {
  const fields = input['generator'];
  if (!isFields(fields)) throw new Error('generator: missing, need its numbers');
  const [seed, nT, nM, N, mu, sdT, sdM, s0, kg, blocks, pHome, pGross] = RECIPE_FIELDS.map((name) =>
    numberOf(fields, name)
  );
  const need = (value: number | undefined): number => value ?? NaN;
  return {
    seed: need(seed),
    nT: need(nT),
    nM: need(nM),
    N: need(N),
    mu: need(mu),
    sdT: need(sdT),
    sdM: need(sdM),
    s0: need(s0),
    kg: need(kg),
    blocks: need(blocks),
    pHome: need(pHome),
    pGross: need(pGross)
  };
}

interface Layout extends S.CrossedRecords {
  readonly size: ArrayLike<number>;
  readonly gross: ArrayLike<number>;
}

/** The records of a case: given, or made by the generator where they are not. */
export function layoutOf(input: Fields): Layout {
  if (!('e' in input)) {
    const made = simulateCrossed(recipeOf(input));
    return { a: made.a, b: made.b, y: made.y, size: made.size, gross: made.gross };
  }
  const y = numbersOf(input, 'e');
  const size = 'm' in input ? numbersOf(input, 'm') : new Array<number>(y.length).fill(1);
  return { a: numbersOf(input, 'a'), b: numbersOf(input, 'b'), y, size, gross: [] };
}

const seen = (factor: S.FittedFactor, values: Float64Array): Float64Array =>
  values.filter((_, level) => !Number.isNaN(factor.effect[level]));

function fitFields(fit: S.CrossedFit, input: Fields): Fields {
  const names = { a: input['aName'] ?? 'a', b: input['bName'] ?? 'b' };
  const ofFactor = (name: unknown, factor: S.FittedFactor): Fields => ({
    [`blup_${String(name)}`]: seen(factor, factor.effect),
    [`condSd_${String(name)}`]: seen(factor, factor.conditionalSd),
    [`sePev_${String(name)}`]: seen(factor, factor.standardError),
    [`contrastSe_${String(name)}`]: seen(factor, factor.contrastError)
  });
  return {
    remlCriterion: fit.criterion,
    sdA: fit.a.sd,
    sdB: fit.b.sd,
    sigma: fit.sigma,
    mu: fit.mean,
    seMu: fit.meanError,
    components: fit.components,
    ...ofFactor(names.a, fit.a),
    ...ofFactor(names.b, fit.b)
  };
}

const crossed: Record<string, Method> = {
  'reml.oneway': (i) => {
    const fit = must(S.withinBetween(numbersOf(i, 'a'), numbersOf(i, 'e')));
    return {
      remlCriterion: fit.criterion,
      sdA: fit.between,
      sigma: fit.within,
      mu: fit.mean,
      seMu: fit.meanError,
      blup: fit.effect,
      condSd: fit.conditionalSd,
      sePev: fit.standardError,
      momentSdA: fit.momentBetween,
      momentSigma: fit.momentWithin
    };
  },
  'reml.crossed': (i) => {
    const { a, b, y, size } = layoutOf(i);
    const phi = numberOr(i, 'phi', 0);
    const weights = Float64Array.from(size, (s) => 1 / (1 + phi / (s * s)));
    return fitFields(must(S.fitCrossed({ a, b, y, weights })), i);
  },
  'reml.varianceFunction': (i) => {
    const { a, b, y, size } = layoutOf(i);
    const fit = must(S.fitVarianceFunction({ a, b, y }, size));
    return { ...fitFields(fit, i), phi: fit.phi, kgSd: (Math.sqrt(fit.phi) * fit.sigma) / 100 };
  },
  'reml.robust': (i) => {
    const { a, b, y, gross } = layoutOf(i);
    const fit = must(
      S.fitCrossedRobust({ a, b, y }, { clip: numberOr(i, 'k', 2), cut: numberOr(i, 'cut', 4) })
    );
    const grossErrors = Array.from(gross, (_, k) => k).filter((k) => gross[k] === 1);
    return {
      ...fitFields(fit, i),
      robustScale: fit.scale,
      rejected: fit.dropped,
      rejectedAmongGross: grossErrors.filter((k) => fit.robustWeight[k] === 0).length,
      gross: grossErrors.length
    };
  }
};

/** Every method of the reference: a function from the input of a case to the names of its expected values. */
export const METHODS: Readonly<Record<string, Method>> = {
  ...intervals,
  ...charts,
  ...runLengths,
  ...changes,
  ...summaries,
  ...units,
  ...crossed
};
