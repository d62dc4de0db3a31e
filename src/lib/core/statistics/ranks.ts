export interface Ranks {
  /** From 1; tied values share the average of their ranks. */
  readonly rank: Float64Array;
  /** Sum of t^3 - t over the groups of t tied values. */
  readonly ties: number;
}

/** Ranks of values without NaN. */
export function averageRanks(values: Float64Array): Ranks {
  const order = Array.from(values, (_, i) => i).sort((i, j) => (values[i] ?? NaN) - (values[j] ?? NaN));
  const rank = new Float64Array(values.length);
  let ties = 0;
  for (let start = 0; start < order.length;) {
    let end = start + 1;
    while (end < order.length && values[order[end] ?? NaN] === values[order[start] ?? NaN]) end += 1;
    for (const index of order.slice(start, end)) rank[index] = (start + 1 + end) / 2;
    const tied = end - start;
    ties += tied ** 3 - tied;
    start = end;
  }
  return { rank, ties };
}
