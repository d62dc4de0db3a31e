import * as S from '#lib/core/statistics/index.ts';
import { must, type Method } from './method.ts';
import { numberOf, numberOr, numbersOf, type Fields } from './read-case.ts';

// The reference counts from 1.
const fromOne = (indices: readonly number[]): number[] => indices.map((i) => i + 1);
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

export const charts: Record<string, Method> = {
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

export const runLengths: Record<string, Method> = {
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

export const changes: Record<string, Method> = {
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
