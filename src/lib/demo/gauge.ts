import { plan } from './plan.ts';
import { type Random, normal } from './random.ts';
import type { SimulatedTail } from './tails.ts';
import { fillTanks, leftOuterTank } from './tanks.ts';

/** What the gauges of a tail read too much on a day, as a proportion. */
function gain(tail: SimulatedTail, day: number, faults: boolean): number {
  const { drift } = plan;
  const isDrifting = faults && tail.registration === drift.tail && day > drift.fromDay;
  const drifted = isDrifting ? (drift.percentPer30Days * (day - drift.fromDay)) / 30 : 0;
  return (tail.gainPercent + drifted) / 100;
}

/** How much wider or narrower than its type's the scatter of a tail is on a day. */
function noiseFactor(tail: SimulatedTail, day: number, faults: boolean): number {
  if (!faults) return 1;
  const { paradox, scatter } = plan;
  if (tail.registration === paradox.tail) return paradox.noiseFactor;
  if (tail.registration !== scatter.tail || day < scatter.fromDay) return 1;
  return day < scatter.untilDay ? scatter.noiseFactor : scatter.factorAfter;
}

/** What a sticking probe hides of the fuel in the tanks, kg. */
export function hiddenKg(tail: SimulatedTail, fuelKg: number, day: number, faults: boolean): number {
  const { probe } = plan;
  if (!faults || tail.registration !== probe.tail || day < probe.fromDay) return 0;
  const outerKg = fillTanks(tail.typeIndex, fuelKg)[leftOuterTank] ?? 0;
  return Math.max(0, outerKg - probe.sticksAtKg);
}

/** One reading of the gauges, kg, in steps of the type's gauge. */
export function readGauge(
  tail: SimulatedTail,
  fuelKg: number,
  day: number,
  faults: boolean,
  random: Random
): number {
  const { gaugeNoiseKg, type } = tail.performance;
  const noiseKg = gaugeNoiseKg * noiseFactor(tail, day, faults) * normal(random);
  const shownKg = fuelKg * (1 + gain(tail, day, faults)) - hiddenKg(tail, fuelKg, day, faults) + noiseKg;
  return Math.max(0, Math.round(shownKg / type.gaugeStepKg) * type.gaugeStepKg);
}
