/** What the limits say of each record: rewritten whole when limits change, while the masses stay. */
export interface Verdicts {
  /** Index in `verdicts`. */
  readonly verdict: Uint8Array;
  /** 1 where the record is outside, but no further than its own uncertainty explains. */
  readonly withinUncertainty: Uint8Array;
  readonly limitKg: Float64Array;
  readonly limitBaseKg: Float64Array;
  /** Index in the settings' limit sets plus one; 0: no set holds on that day. */
  readonly limitSet: Uint8Array;
  /** Bits of `limitChecks`. */
  readonly checks: Uint16Array;
}

export function createVerdicts(rowCount: number): Verdicts {
  return {
    verdict: new Uint8Array(rowCount),
    withinUncertainty: new Uint8Array(rowCount),
    limitKg: new Float64Array(rowCount).fill(NaN),
    limitBaseKg: new Float64Array(rowCount).fill(NaN),
    limitSet: new Uint8Array(rowCount),
    checks: new Uint16Array(rowCount)
  };
}
