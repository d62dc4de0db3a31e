// Sums and summaries
export { compensatedSum, exactSum } from './sums.ts';
export { mean, moments, standardDeviation, weightedMean, type Moments } from './moments.ts';
export {
  median,
  quantile,
  quantileSorted,
  quantileSortedType6,
  quantilesSorted,
  sortedPresent
} from './quantiles.ts';
export { quantilesUnsorted } from './selection.ts';
// Long work that can be laid down
export { filled, runSteps, stretches, type Steps } from './steps.ts';
export { boxSummary, type Box } from './box.ts';
export { kernelDensity, silvermanBandwidth } from './kernel-density.ts';

// Centre and scale that gross errors cannot pull
export {
  huberLocation,
  huberProposal2,
  medianAbsoluteDeviation,
  robustScale,
  type LocationAndScale,
  type RobustScale
} from './robust-location.ts';
export { qn, sn } from './pairwise-scale.ts';

// Answers that may not exist
export type { Estimate, NotEstimable, Shortfall } from './estimable.ts';

// Distributions
export {
  betaCdf,
  betaQuantile,
  binomialCdf,
  binomialUpper,
  chiSquareUpper,
  fUpper,
  gammaCdf,
  gammaQuantile,
  normalCdf,
  normalDensity,
  normalQuantile,
  normalTwoSided,
  poissonCdf,
  poissonUpper
} from './distributions.ts';

// Proportions and rates with their intervals
export {
  clopperPearson,
  jeffreys,
  newcombeDifference,
  wilson,
  type Difference,
  type Interval
} from './proportions.ts';
export { poissonExact, rateRatio, type RateRatio } from './event-rates.ts';

// Many units at one time
export { benjaminiHochberg, type FalseDiscovery } from './multiplicity.ts';
export {
  binomialFunnel,
  binomialFunnelLimits,
  poissonFunnel,
  poissonFunnelLimits,
  type Funnel,
  type FunnelOptions
} from './funnel.ts';
export { shrinkRates, type ShrunkenRates } from './gamma-poisson.ts';
export { marshallRates, type MomentRates } from './marshall.ts';
export { jamesStein, type Shrunken } from './shrinkage.ts';
export {
  compareStratified,
  standardisedDifference,
  type MeanStratum,
  type StandardisedDifference,
  type StratifiedComparison,
  type Stratum
} from './stratified.ts';
export {
  stratifiedMeanDifference,
  stratifiedRateDifference,
  type StratifiedDifference
} from './stratified-difference.ts';
export { expectedEvents, type ExpectedEvents, type Trials } from './expected-events.ts';

// Charts over time
export type { ChartOptions } from './charts/baseline.ts';
export {
  cChart,
  laneyPChart,
  laneyUChart,
  pChart,
  uChart,
  type DispersionOptions,
  type RateChart
} from './charts/rate-chart.ts';
export { individualsChart, type IndividualsChart } from './charts/individuals.ts';
export {
  gapChart,
  gapLimits,
  gapTransform,
  gapTransformMoments,
  openGapProbability,
  timeGapChart,
  timeGapLimits,
  type CountGapChart,
  type CountGapLimits,
  type TimeGapChart,
  type TimeGapLimits
} from './charts/gaps.ts';
export { ewma, ewmaSteadyDeviation, ewmaUnequal, type EwmaChart, type EwmaOptions } from './charts/ewma.ts';
export { cusum, cusumOnset, type CusumChart, type CusumOptions } from './charts/cusum.ts';
export {
  cusumLimitFor,
  cusumRunLength,
  ewmaLimitFor,
  ewmaRunLength,
  runLengthForBudget,
  siegmundRunLength
} from './charts/run-length.ts';
export { periodWobble, type PeriodSeries, type Wobble } from './charts/period-wobble.ts';
export { watchAlarms } from './charts/watch.ts';

// When the level changed
export { oneChange, type OneChange } from './changes/one-change.ts';
export { changeBand, type ChangeBand } from './changes/change-band.ts';
export { severalChanges, type Segment, type SeveralChanges } from './changes/several-changes.ts';
export { changePenalty, scanTail, scanThreshold, siegmundTail } from './changes/scan-tail.ts';
export { noiseFromDifferences } from './changes/series.ts';
export { fitSeason, type SeasonFit, type SeasonOptions } from './season.ts';

// Spread
export {
  bartlett,
  brownForsythe,
  flignerKilleen,
  kruskalWallis,
  levene,
  type ChiSquareTest,
  type FTest
} from './spread-tests.ts';
export { spreadInterval, type SpreadInterval } from './spread-interval.ts';
export { withinBetween, type WithinBetween } from './within-between.ts';
export { spreadRatio } from './spread-ratio.ts';

// Slopes and steps inside strata
export { withinSlope, type WithinSlope } from './within-slope.ts';
export { pairedStep, type PairedStep, type PairedStratum } from './paired-step.ts';

// A constant or a share of the size
export {
  kindOfLine,
  offsetOrScale,
  offsetOrScaleKinds,
  type Estimated,
  type OffsetOrScale,
  type OffsetOrScaleKind
} from './offset-or-scale.ts';

// Which of two crossed factors
export type { CrossedRecords } from './crossed/design.ts';
export {
  FEWEST_LEVELS,
  fitCrossed,
  type CrossedFit,
  type FitOptions,
  type FittedFactor
} from './crossed/fit.ts';
export {
  fitCrossedRobust,
  fitCrossedRobustSteps,
  type RobustFit,
  type RobustOptions
} from './crossed/robust.ts';
export {
  fitVarianceFunction,
  type VarianceFunctionFit,
  type VarianceFunctionOptions
} from './crossed/variance-function.ts';
export { likelyOffsets, type LikelyOffset } from './crossed/likely-offsets.ts';
export {
  adjustedPeriodMeans,
  adjustedPeriodMeansSteps,
  type PeriodMeans,
  type PeriodOptions
} from './crossed/period-means.ts';

// Minimisation
export {
  nelderMead,
  type Minimum,
  type NelderMeadOptions,
  type SearchControl
} from './minimise/nelder-mead.ts';
