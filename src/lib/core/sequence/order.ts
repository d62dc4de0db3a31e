/** Where each code's rows start once grouped; one place more than there are codes. */
function startsByCode(codes: Uint32Array): Uint32Array {
  let highest = 0;
  for (let row = 0; row < codes.length; row++) highest = Math.max(highest, codes[row] as number);
  const starts = new Uint32Array(highest + 2);
  for (let row = 0; row < codes.length; row++) {
    const after = (codes[row] as number) + 1;
    starts[after] = (starts[after] as number) + 1;
  }
  for (let code = 1; code < starts.length; code++)
    starts[code] = (starts[code] ?? 0) + (starts[code - 1] ?? 0);
  return starts;
}

/** Sorts part of the order by time, the earlier row first where times are equal; rows without a time come last. */
function sortByTime(order: Uint32Array, from: number, to: number, timeMs: Float64Array): void {
  const timeOf = (row: number): number => {
    const time = timeMs[row] ?? NaN;
    return Number.isNaN(time) ? Infinity : time;
  };
  let before = -Infinity;
  for (let i = from; i < to; i++) {
    const time = timeOf(order[i] as number);
    const isInOrder = before <= time;
    before = time;
    if (isInOrder) continue;
    order.subarray(from, to).sort((a, b) => {
      const timeA = timeOf(a);
      const timeB = timeOf(b);
      return timeA === timeB ? a - b : timeA < timeB ? -1 : 1;
    });
    return;
  }
}

/**
 * Rows ordered by dictionary code, then time (ms), then row; code 0, "missing", first. Counting, not comparing,
 * groups the codes, and a group already in time order is left as it is, so a million rows of a dated export cost
 * little.
 */
export function orderByCodeAndTime(codes: Uint32Array, timeMs: Float64Array): Uint32Array {
  const starts = startsByCode(codes);
  const next = starts.slice();
  const order = new Uint32Array(codes.length);
  for (let row = 0; row < codes.length; row++) {
    const code = codes[row] ?? 0;
    const place = next[code] ?? 0;
    order[place] = row;
    next[code] = place + 1;
  }
  for (let code = 0; code + 1 < starts.length; code++) {
    sortByTime(order, starts[code] ?? 0, starts[code + 1] ?? 0, timeMs);
  }
  return order;
}
