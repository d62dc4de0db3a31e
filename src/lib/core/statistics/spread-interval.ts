import { normalQuantile } from './distributions.ts';
import { moments } from './moments.ts';
import { tailShare, type Interval } from './proportions.ts';

/** A standard deviation with its interval. */
export interface SpreadInterval extends Interval {
  readonly standardDeviation: number;
}

// Fewer values say too little of their own tails, on which the interval rests.
const FEWEST = 30;

/**
 * Standard deviation of values with an interval that allows for heavy tails: normal on the logarithm, from the exact
 * variance of a sample variance, sigma^4 (kurtosis / n - (n - 3) / (n (n - 1))) (Mood, Graybill & Boes 1974,
 * Introduction to the Theory of Statistics, VI 2: from memory), the kurtosis that of the sample. For large samples;
 * NaN limits below 30 values or where they do not vary.
 */
export function spreadInterval(values: ArrayLike<number>, confidence = 0.95): SpreadInterval {
  const { n, mean, variance, standardDeviation } = moments(values);
  if (n < FEWEST || !(variance > 0)) return { standardDeviation, lower: NaN, upper: NaN };
  let fourth = 0;
  for (let i = 0; i < values.length; i++) {
    const deviation = ((values[i] as number) - mean) ** 2;
    if (!Number.isNaN(deviation)) fourth += deviation * deviation;
  }
  const kurtosis = (n * fourth) / ((n - 1) * variance) ** 2;
  const error = Math.sqrt(kurtosis / n - (n - 3) / (n * (n - 1))) / 2;
  const factor = Math.exp(normalQuantile(1 - tailShare(confidence)) * error);
  return { standardDeviation, lower: standardDeviation / factor, upper: standardDeviation * factor };
}
