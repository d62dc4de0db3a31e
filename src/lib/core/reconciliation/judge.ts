import { notJudged, outside, within } from './bits.ts';
import { indexOf, limitBases } from './codes.ts';

/** A limit on the discrepancy: the larger of a floor and a percentage of a base. NaN is not set. */
export interface Limit {
  /** Index in `limitBases`. */
  readonly base: number;
  readonly percent: number;
  readonly floorKg: number;
}

/** What a limit says of one discrepancy. Filled in place. */
export interface Judgement {
  /** Index in `verdicts`. */
  verdict: number;
  baseKg: number;
  limitKg: number;
  percentOfBase: number;
  /** Whether the discrepancy is no larger than its own uncertainty explains: |En| at most 1. */
  isWithinUncertainty: boolean;
}

export const createJudgement = (): Judgement => ({
  verdict: notJudged,
  baseKg: NaN,
  limitKg: NaN,
  percentOfBase: NaN,
  isWithinUncertainty: false
});

const expectedDeparture = indexOf(limitBases, 'expectedDeparture');
const higher = indexOf(limitBases, 'higherOfExpectedAndIndicated');

/** The larger of the parts of the limit that are set, NaN when none is or a part cannot be worked out. */
function limitOf(limit: Limit, baseKg: number): number {
  const hasFloor = Number.isFinite(limit.floorKg);
  if (!Number.isFinite(limit.percent)) return hasFloor ? limit.floorKg : NaN;
  const shareKg = (limit.percent / 100) * baseKg;
  return hasFloor ? Math.max(limit.floorKg, shareKg) : shareKg;
}

/** Verdict on a value that must not be further from 0 than a limit: `notJudged` where either is missing. */
export function judgeDistance(value: number, limit: number): number {
  if (!Number.isFinite(value) || !(limit >= 0)) return notJudged;
  return Math.abs(value) > limit ? outside : within;
}

/** Verdict on a value between a minimum and a maximum, of which one may be missing: the ends are within. */
export function judgeRange(value: number, minimum: number, maximum: number): number {
  if (!Number.isFinite(value) || (Number.isNaN(minimum) && Number.isNaN(maximum))) return notJudged;
  return value < minimum || value > maximum ? outside : within;
}

/**
 * Judges one discrepancy against one limit: outside when |d| is above the larger of floor and percent x base, not
 * judged where d, the limit or its base is missing. All masses in kg; `expandedUncertaintyKg` may be NaN.
 */
export function judge(
  discrepancyKg: number,
  meteredMassKg: number,
  expectedDepartureKg: number,
  departureFuelKg: number,
  limit: Limit,
  expandedUncertaintyKg: number,
  out: Judgement
): void {
  if (limit.base === expectedDeparture) out.baseKg = expectedDepartureKg;
  else if (limit.base === higher) out.baseKg = Math.max(expectedDepartureKg, departureFuelKg);
  else out.baseKg = meteredMassKg;
  out.limitKg = limitOf(limit, out.baseKg);
  out.percentOfBase = out.baseKg > 0 ? (100 * discrepancyKg) / out.baseKg : NaN;
  out.verdict = judgeDistance(discrepancyKg, out.limitKg);
  out.isWithinUncertainty = Math.abs(discrepancyKg) <= expandedUncertaintyKg;
}
