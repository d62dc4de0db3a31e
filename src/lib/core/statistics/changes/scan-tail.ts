import { normalCdf, normalDensity, normalQuantile } from '../distributions.ts';
import { integrate } from '../quadrature.ts';

// Below this length the continuous approximation is too small, and the sum over all splits is used instead.
const SHORTEST_FOR_SIEGMUND = 20;

/** Siegmund's correction for looking at discrete splits. */
function overshoot(x: number): number {
  if (x < 1e-8) return 1;
  const half = x / 2;
  return (normalCdf(half) - 0.5) / half / (half * normalCdf(half) + normalDensity(half));
}

/**
 * Chance that the largest standardised difference over all splits of n unchanged normal values reaches b, two-sided
 * (Siegmund 1985, Sequential Analysis, boundary crossing of the standardised bridge), splits `margin` off the ends.
 */
export function siegmundTail(b: number, n: number, margin = 2): number {
  if (!(b > 0)) return 1;
  // In the logit of the split the weight 1 / (t (1 - t)) is uniform.
  const edge = Math.log((n - margin) / margin);
  const integral = integrate(
    (s) => {
      const t = 1 / (1 + Math.exp(-s));
      return overshoot(b / Math.sqrt(n * t * (1 - t)));
    },
    -edge,
    edge
  );
  return Math.min(1, b * normalDensity(b) * integral);
}

/** The sum of the tails over all splits: an upper bound, close for short series. */
function bonferroniTail(b: number, splits: number): number {
  return Math.min(1, 2 * splits * normalCdf(-b));
}

const splitsOf = (n: number, margin: number): number => n - 2 * margin + 1;

/** p value of a largest standardised difference b over the splits of n values. */
export function scanTail(b: number, n: number, margin = 2): number {
  if (n < SHORTEST_FOR_SIEGMUND) return bonferroniTail(b, splitsOf(n, margin));
  return siegmundTail(b, n, margin);
}

/**
 * The b at which an unchanged series of n values signals with the given chance. Its square is the price of one more
 * change that keeps false changes to a budget: chance = false changes accepted / number of series.
 */
export function scanThreshold(n: number, chance: number, margin = 2): number {
  if (!(chance > 0 && chance < 0.5)) throw new RangeError(`chance: ${chance}, need over 0 and below 0.5`);
  if (splitsOf(n, margin) < 1) throw new RangeError(`series: ${n} values, need ${2 * margin}`);
  if (n < SHORTEST_FOR_SIEGMUND) return -normalQuantile(chance / (2 * splitsOf(n, margin)));
  let [low, high] = [1, 38];
  while (high - low > 1e-10) {
    const middle = (low + high) / 2;
    if (siegmundTail(middle, n, margin) > chance) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** Price of one more change for `severalChanges`: falseSeries of that many unchanged series show a change. */
export function changePenalty(n: number, series: number, falseSeries: number): number {
  return scanThreshold(n, falseSeries / series) ** 2;
}
