import * as S from '#lib/core/statistics/index.ts';
import { must, type Method } from './method.ts';
import { groupsOf, numberOf, numbersOf } from './read-case.ts';

export const summaries: Record<string, Method> = {
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
    const p = 'p' in i ? numbersOf(i, 'p') : [0.5];
    return {
      type6: p.map((share) => S.quantileSortedType6(sorted, share)),
      type7: p.map((share) => S.quantileSorted(sorted, share)),
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
