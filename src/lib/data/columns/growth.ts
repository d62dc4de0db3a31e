/** The capacity to grow to so that `needed` fits: half as much again, which keeps copying linear in total. */
export function grownCapacity(current: number, needed: number): number {
  return Math.max(needed, current + (current >> 1), 1024);
}
