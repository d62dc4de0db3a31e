import { factorRows, unitRows } from './published-factors.ts';
import { refuellingRows } from './published-refuellings.ts';
import type { PublishedRow } from './published-row.ts';

/** One published value beside what this program makes of the same inputs. */
export interface MethodCheck {
  readonly part: PublishedRow['part'];
  readonly what: string;
  readonly source: string;
  readonly unit: string;
  readonly published: number;
  /** Digits after the point that were published. */
  readonly decimals: number;
  readonly computed: number;
  /** Computed rounds to what was published, or is within a unit of its last digit where the source rounded inside. */
  readonly passed: boolean;
}

function checkOf({ compute, within = 0.5, ...row }: PublishedRow): MethodCheck {
  const computed = compute();
  const digit = 10 ** -row.decimals;
  // A hair more than half a unit, so that a tie of the last digit is no failure of the ninth decimal.
  return { ...row, computed, passed: Math.abs(computed - row.published) <= within * digit * (1 + 1e-9) };
}

/** Published values recomputed here and now by the functions every record goes through. */
export function methodChecks(): MethodCheck[] {
  return [...factorRows(), ...unitRows(), ...refuellingRows()].map(checkOf);
}
