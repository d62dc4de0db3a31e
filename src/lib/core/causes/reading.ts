import type { CauseEvidence } from './evidence.ts';

/** One way in which a record could have come about: the values behind it if one thing were wrong. */
export interface Reading {
  /** Index in `causeCodes`. */
  cause: number;
  /** Share of the cause's prior: a cause with many ways splits it, or it would explain everything. */
  share: number;
  /** How much likelier the signs of this cause are under it than without it. */
  signs: number;
  /** Probability that figures which should be independent carry the same fault. */
  copied: number;
  meteredMassKg: number;
  gaugeUpliftKg: number;
  volumeL: number;
  arrivalFuelKg: number;
  departureFuelKg: number;
  /** Variance of the log ratio beyond the record's own scatter. */
  extraVariance: number;
  /** Index in `causeFigures`. */
  figure: number;
  figureValue: number;
}

export const createReading = (): Reading => ({
  cause: -1,
  share: 1,
  signs: 1,
  copied: 0,
  meteredMassKg: NaN,
  gaugeUpliftKg: NaN,
  volumeL: NaN,
  arrivalFuelKg: NaN,
  departureFuelKg: NaN,
  extraVariance: 0,
  figure: 0,
  figureValue: NaN
});

/** Starts a reading of a cause from the values as typed. */
export function asTyped(reading: Reading, cause: number, evidence: CauseEvidence): Reading {
  reading.cause = cause;
  reading.share = 1;
  reading.signs = 1;
  reading.copied = 0;
  reading.meteredMassKg = evidence.meteredMassKg;
  reading.gaugeUpliftKg = evidence.gaugeUpliftKg;
  reading.volumeL = evidence.volumeL;
  reading.arrivalFuelKg = evidence.arrivalFuelKg;
  reading.departureFuelKg = evidence.departureFuelKg;
  reading.extraVariance = 0;
  reading.figure = 0;
  reading.figureValue = NaN;
  return reading;
}

/** Multiplies the delivery side. */
export function scaleMetered(reading: Reading, factor: number): Reading {
  reading.meteredMassKg *= factor;
  reading.volumeL *= factor;
  return reading;
}
