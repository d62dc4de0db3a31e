// Sums and summaries
export { compensatedSum, exactSum } from './sums.ts';
export { mean, moments, standardDeviation, weightedMean, type Moments } from './moments.ts';
export { median, quantile, quantileSorted, quantilesSorted, sortedPresent } from './quantiles.ts';

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
