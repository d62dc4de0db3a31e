import type { Mark, Quality, Verdict } from '#lib/core/reconciliation/index.ts';
import type { LimitCheck } from './limit-checks.ts';
import type { CheckFieldName, NameFieldName } from '#lib/data/record/index.ts';

/**
 * Which records a page is about; `{}` is all of them. The parts are joined by "and", the values of one part by
 * "or". Days are ISO dates in UTC, both included. A name of '' stands for "not recorded".
 */
export interface RecordFilter {
  readonly names?: { readonly [N in NameFieldName]?: readonly string[] };
  readonly fromDay?: string;
  readonly untilDay?: string;
  readonly verdicts?: readonly Verdict[];
  readonly qualities?: readonly Quality[];
  readonly marks?: readonly (Mark | LimitCheck)[];
  /** Checks of which at least one failed. */
  readonly failed?: readonly CheckFieldName[];
}
