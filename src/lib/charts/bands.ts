/** The centres of `count` equal bands between two ends, px. */
export function bandCentres(count: number, from: number, to: number): number[] {
  return Array.from({ length: count }, (_, index) => from + ((index + 0.5) / count) * (to - from));
}
