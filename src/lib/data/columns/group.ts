/** Rows counted per code: one pass, no hashing. `codes` are below `groups`; rows not selected do not count. */
export function countByCode(codes: Uint32Array, groups: number, rows: Uint32Array): Uint32Array {
  const counts = new Uint32Array(groups);
  for (let i = 0; i < rows.length; i++) {
    const code = codes[rows[i] as number] as number;
    counts[code] = (counts[code] as number) + 1;
  }
  return counts;
}

/**
 * Rows sorted into groups by code, order within a group kept: `rows.subarray(starts[g], starts[g + 1])` is group g.
 */
export function rowsByCode(
  codes: Uint32Array,
  groups: number,
  rows: Uint32Array
): { rows: Uint32Array; starts: Uint32Array } {
  const counts = countByCode(codes, groups, rows);
  const starts = new Uint32Array(groups + 1);
  for (let g = 0; g < groups; g++) starts[g + 1] = (starts[g] ?? 0) + (counts[g] ?? 0);
  const next = starts.slice(0, groups);
  const sorted = new Uint32Array(rows.length);
  for (let i = 0; i < rows.length; i++) {
    const row = rows[i] as number;
    const group = codes[row] as number;
    const place = next[group] as number;
    sorted[place] = row;
    next[group] = place + 1;
  }
  return { rows: sorted, starts };
}
