import * as S from '#lib/core/statistics/index.ts';
import { simulateCrossed, type CrossedRecipe } from './crossed-generator.ts';
import { must, type Method } from './method.ts';
import { isFields, numberOf, numberOr, numbersOf, type Fields } from './read-case.ts';

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

export const crossed: Record<string, Method> = {
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
