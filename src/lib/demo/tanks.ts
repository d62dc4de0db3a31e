import { demoTypes } from './fleet.ts';

/** Tanks filled together, up to this much in each, kg. */
type Stage = readonly [tanks: readonly number[], upToKg: number];

/** The order in which each type fills its tanks, by index of the register. */
const stages: readonly (readonly Stage[])[] = [
  [
    [[0, 2], 6250],
    [[1], 6100]
  ],
  [
    [[1, 3], 24_000],
    [[5], 3000],
    [[2], 3200],
    [[0, 4], 4500],
    [[2], 18_000]
  ],
  [[[0, 1], 2500]]
];

/** Index of the left outer tank of the AV310. */
export const leftOuterTank = 0;

/** How a total, kg, lies in the tanks of a type, by tank of the register; above capacity the last stage holds it. */
export function fillTanks(typeIndex: number, totalKg: number): number[] {
  const type = demoTypes[typeIndex];
  const order = stages[typeIndex];
  if (type === undefined || order === undefined)
    throw new RangeError(`tanks: type ${typeIndex}, need a type`);
  const filled = type.tanks.map(() => 0);
  let leftKg = totalKg;
  for (const [tanks, upToKg] of order) {
    const already = filled[tanks[0] ?? 0] ?? 0;
    const each = Math.min(upToKg - already, leftKg / tanks.length);
    for (const tank of tanks) filled[tank] = already + each;
    leftKg -= each * tanks.length;
    if (leftKg <= 0) break;
  }
  return filled;
}
