/** Index range [from, to) of the periods that set centre and limits; all when left out. */
export interface ChartOptions {
  readonly baseline?: readonly [from: number, to: number];
}

/** The values inside the baseline, NaN outside it. */
export function withinBaseline(values: ArrayLike<number>, options: ChartOptions): Float64Array {
  const [from, to] = options.baseline ?? [0, values.length];
  if (!(from >= 0 && from < to && to <= values.length)) {
    throw new RangeError(`baseline: ${from} to ${to}, need a part of 0 to ${values.length}`);
  }
  return Float64Array.from(values, (value, i) => (i >= from && i < to ? value : NaN));
}

/** Indices at which a value lies outside its limits; NaN is never outside. */
export function outsideLimits(
  values: ArrayLike<number>,
  lower: ArrayLike<number>,
  upper: ArrayLike<number>
): number[] {
  return Array.from(values, (_, i) => i).filter((i) => {
    const value = values[i] ?? NaN;
    return value > (upper[i] ?? NaN) || value < (lower[i] ?? NaN);
  });
}
