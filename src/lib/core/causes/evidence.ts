/**
 * Everything of one refuelling that a cause can use, as numbers. NaN is missing. Callers keep one and overwrite
 * it for every record.
 */
export interface CauseEvidence {
  tickets: number;
  /** As reconciled. */
  meteredMassKg: number;
  gaugeUpliftKg: number;
  /** The figure typed on the delivery side, in its own unit; missing where several tickets were summed. */
  meteredTyped: number;
  /** Volume at the metering temperature as used; missing where only meter readings are known. */
  volumeL: number;
  netVolumeL: number;
  densityAtMeterKgM3: number;
  /** Densities as typed, brought to kg/m3 by the unit the file was taken to be in, however unlikely. */
  observedDensityKgM3: number;
  ticketDensity15KgM3: number;
  certificateDensity15KgM3: number;
  sampleTemperatureC: number;
  meterTemperatureC: number;

  arrivalFuelKg: number;
  departureFuelKg: number;
  groundBurnKg: number;
  /** As typed: a negative amount is evidence. */
  defuelledKg: number;
  /** Kilograms in one unit in which arrival and departure were typed: 1, or 0.45359237 for pounds. */
  gaugeUnitKg: number;
  gaugeStepKg: number;
  previousDepartureKg: number;
  nextArrivalKg: number;

  /** Volume of the delivery before this one on the same meter. */
  previousVolumeL: number;
  meterStartL: number;
  meterStopL: number;
  previousMeterStopL: number;
  /** Volume at which the register returns to zero. */
  meterRegisterL: number;

  orderedKg: number;
  /** Index in `orderedBases`. */
  orderedBasis: number;
  recordedUpliftKg: number;
  tanksAfterKg: number;
  leftAfterKg: number;
  rightAfterKg: number;
  stickFuelKg: number;
  /** What the tanks of the type hold. */
  capacityKg: number;
  /** Left-right difference allowed for the type. */
  imbalanceLimitKg: number;

  /** Expected ln(gauge / metered) of this tail and meter; missing counts as 0. */
  expectedLogRatio: number;
  /** Spread of the log ratio that grows with the uplift, and the part in kg that does not; missing: the options'. */
  relativeScatter: number;
  noiseKg: number;
  /** Standard uncertainty of the discrepancy from instruments alone. */
  ownUncertaintyKg: number;

  /** Minutes between two tickets of this tail with one volume, and the mass of one of them; missing: there are none. */
  minutesToDuplicate: number;
  duplicateMassKg: number;
  /** Discrepancy of another tail, same station and time, that is about the opposite of this one. */
  otherTailDiscrepancyKg: number;
  /** Mass of a ticket at the same station and time that belongs to no refuelling. */
  strayTicketKg: number;
}

const nothingKnown: Readonly<CauseEvidence> = {
  tickets: 1,
  meteredMassKg: NaN,
  gaugeUpliftKg: NaN,
  meteredTyped: NaN,
  volumeL: NaN,
  netVolumeL: NaN,
  densityAtMeterKgM3: NaN,
  observedDensityKgM3: NaN,
  ticketDensity15KgM3: NaN,
  certificateDensity15KgM3: NaN,
  sampleTemperatureC: NaN,
  meterTemperatureC: NaN,
  arrivalFuelKg: NaN,
  departureFuelKg: NaN,
  groundBurnKg: NaN,
  defuelledKg: NaN,
  gaugeUnitKg: 1,
  gaugeStepKg: NaN,
  previousDepartureKg: NaN,
  nextArrivalKg: NaN,
  previousVolumeL: NaN,
  meterStartL: NaN,
  meterStopL: NaN,
  previousMeterStopL: NaN,
  meterRegisterL: NaN,
  orderedKg: NaN,
  orderedBasis: 0,
  recordedUpliftKg: NaN,
  tanksAfterKg: NaN,
  leftAfterKg: NaN,
  rightAfterKg: NaN,
  stickFuelKg: NaN,
  capacityKg: NaN,
  imbalanceLimitKg: NaN,
  expectedLogRatio: NaN,
  relativeScatter: NaN,
  noiseKg: NaN,
  ownUncertaintyKg: NaN,
  minutesToDuplicate: NaN,
  duplicateMassKg: NaN,
  otherTailDiscrepancyKg: NaN,
  strayTicketKg: NaN
};

/** Evidence of which nothing is known: one ticket, kilograms. */
export const createCauseEvidence = (): CauseEvidence => ({ ...nothingKnown });

/** Makes used evidence unknown again, in place. */
export function clearCauseEvidence(evidence: CauseEvidence): void {
  Object.assign(evidence, nothingKnown);
}
