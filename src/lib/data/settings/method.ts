import {
  defaultMethod as defaultArithmetic,
  type Method,
  type UncertaintySettings
} from '#lib/core/reconciliation/index.ts';

export type { UncertaintySettings };

/** Choices that change masses, groups or who is counted, as against limits, which change verdicts only. */
export interface MethodChoices {
  /** Density tables, default density, plausible sizes and uncertainties. */
  readonly arithmetic: Method;
  /** Tickets of one tail at one station that end within this time are one refuelling. */
  readonly joinMinutes: number;
  /** Whether verdicts and rates count estimated records too. */
  readonly countEstimated: boolean;
}

export const defaultMethod: MethodChoices = {
  arithmetic: defaultArithmetic,
  joinMinutes: 90,
  countEstimated: false
};
