import type { Design } from './design.ts';
import type { DesignSums } from './sums.ts';

export interface Components {
  /** How many groups of levels share no record with each other; within one, levels compare fairly. */
  readonly count: number;
  /** Group of each level of the design, from 0 in order of appearance; -1 without records. */
  readonly small: Int32Array;
  readonly large: Int32Array;
}

function rootOf(parent: Int32Array, node: number): number {
  let root = node;
  while (parent[root] !== root) root = parent[root] as number;
  // Halve the path for the next call.
  for (let at = node; parent[at] !== root;) {
    const next = parent[at] as number;
    parent[at] = root;
    at = next;
  }
  return root;
}

/**
 * Connected groups of the graph that joins levels of the two factors met in one record (Weeks & Williams 1964,
 * Technometrics 6:319), by union-find.
 */
export function connectedComponents(design: Design, sums: DesignSums): Components {
  const smallCount = design.smallLevels.length;
  const parent = Int32Array.from({ length: smallCount + design.largeLevels.length }, (_, i) => i);
  const met = new Uint8Array(parent.length);
  for (let b = 0; b < design.largeLevels.length; b += 1) {
    for (let x = design.cellStart[b] as number; x < (design.cellStart[b + 1] as number); x += 1) {
      if (!((sums.cellWeight[x] as number) > 0)) continue;
      const i = design.cellSmall[x] as number;
      met[i] = 1;
      met[smallCount + b] = 1;
      parent[rootOf(parent, i)] = rootOf(parent, smallCount + b);
    }
  }
  const label = new Map<number, number>();
  const groups = parent.map((_, node) => {
    if (met[node] === 0) return -1;
    const root = rootOf(parent, node);
    const group = label.get(root) ?? label.size;
    label.set(root, group);
    return group;
  });
  return { count: label.size, small: groups.slice(0, smallCount), large: groups.slice(smallCount) };
}
