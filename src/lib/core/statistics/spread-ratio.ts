import { betaQuantile } from './distributions.ts';
import { tailShare, type Interval } from './proportions.ts';

/** The value of an F law with these degrees of freedom that a share lies below. */
function fQuantile(share: number, df1: number, df2: number): number {
  const x = betaQuantile(share, df1 / 2, df2 / 2);
  return (df2 * x) / (df1 * (1 - x));
}

/**
 * Second standard deviation over the first, with the interval that the F law gives for normal values; heavy tails
 * make it too narrow, so decide by `brownForsythe`. `df` are the degrees of freedom of each, 1 and more.
 */
export function spreadRatio(
  sd1: number,
  df1: number,
  sd2: number,
  df2: number,
  confidence = 0.95
): Interval & { readonly ratio: number } {
  if (!(df1 >= 1 && df2 >= 1)) throw new RangeError(`degrees of freedom: ${df1} and ${df2}, need 1 and more`);
  const tail = tailShare(confidence);
  const ratio = sd2 / sd1;
  return {
    ratio,
    lower: ratio / Math.sqrt(fQuantile(1 - tail, df2, df1)),
    upper: ratio / Math.sqrt(fQuantile(tail, df2, df1))
  };
}
