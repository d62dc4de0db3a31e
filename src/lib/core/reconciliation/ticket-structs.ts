/** One delivery ticket as numbers. NaN is missing. Callers keep one and overwrite it for every row. */
export interface TicketInput {
  /** Volume at the metering temperature. */
  grossVolumeL: number;
  netVolumeL: number;
  /** Temperature the net volume is stated at; missing counts as 15 C and is marked. */
  netBaseTemperatureC: number;
  meterStartL: number;
  meterStopL: number;
  /** Volume at which the register returns to zero, where its digits are known. */
  meterRegisterL: number;
  observedDensityKgM3: number;
  /** Index in `densityMethods`. */
  densityMethod: number;
  sampleTemperatureC: number;
  meterTemperatureC: number;
  ticketDensity15KgM3: number;
  certificateDensity15KgM3: number;
  /** Largest error of this vehicle's meter; missing takes the method's. */
  meterErrorPercent: number;
}

/** What one ticket says. Filled in place; NaN is missing. */
export interface TicketResult {
  /** Volume at the metering temperature that was used. */
  volumeL: number;
  /** Volume at 15 C: computed from the volume used, or the net volume where only that is known. */
  volume15L: number;
  /** Index in `densityCases`. */
  densityCase: number;
  densityAtMeterKgM3: number;
  density15KgM3: number;
  meteredMassKg: number;
  /** Index in `qualities`. */
  quality: number;
  /** Bits of `reasons` and of `marks`. */
  reasons: number;
  marks: number;
  /** Observed density at 15 C less the ticket's density at 15 C: two independent ones. */
  densityDifferenceKgM3: number;
  /** Density at 15 C (observed, else the ticket's) less the certificate's. */
  certificateDifferenceKgM3: number;
  /** Stated gross volume less meter stop minus start. */
  meterDifferenceL: number;
  /** Stated net volume less the one computed from the gross volume. */
  netDifferenceL: number;
  /** Volume if the register passed zero: a proposal while the register is not known. */
  proposedVolumeL: number;
  /** Standard uncertainties. */
  densityUncertaintyKgM3: number;
  massUncertaintyKg: number;
}

/** A ticket of which nothing is known. */
export const createTicketInput = (): TicketInput => ({
  grossVolumeL: NaN,
  netVolumeL: NaN,
  netBaseTemperatureC: NaN,
  meterStartL: NaN,
  meterStopL: NaN,
  meterRegisterL: NaN,
  observedDensityKgM3: NaN,
  densityMethod: 0,
  sampleTemperatureC: NaN,
  meterTemperatureC: NaN,
  ticketDensity15KgM3: NaN,
  certificateDensity15KgM3: NaN,
  meterErrorPercent: NaN
});

/** Makes a used input unknown again, in place. */
export function clearTicketInput(input: TicketInput): void {
  input.grossVolumeL = NaN;
  input.netVolumeL = NaN;
  input.netBaseTemperatureC = NaN;
  input.meterStartL = NaN;
  input.meterStopL = NaN;
  input.meterRegisterL = NaN;
  input.observedDensityKgM3 = NaN;
  input.densityMethod = 0;
  input.sampleTemperatureC = NaN;
  input.meterTemperatureC = NaN;
  input.ticketDensity15KgM3 = NaN;
  input.certificateDensity15KgM3 = NaN;
  input.meterErrorPercent = NaN;
}

export const createTicketResult = (): TicketResult => ({
  volumeL: NaN,
  volume15L: NaN,
  densityCase: 0,
  densityAtMeterKgM3: NaN,
  density15KgM3: NaN,
  meteredMassKg: NaN,
  quality: 0,
  reasons: 0,
  marks: 0,
  densityDifferenceKgM3: NaN,
  certificateDifferenceKgM3: NaN,
  meterDifferenceL: NaN,
  netDifferenceL: NaN,
  proposedVolumeL: NaN,
  densityUncertaintyKgM3: NaN,
  massUncertaintyKg: NaN
});

export function clearTicketResult(result: TicketResult): void {
  result.volumeL = NaN;
  result.volume15L = NaN;
  result.densityCase = 0;
  result.densityAtMeterKgM3 = NaN;
  result.density15KgM3 = NaN;
  result.meteredMassKg = NaN;
  result.quality = 0;
  result.reasons = 0;
  result.marks = 0;
  result.densityDifferenceKgM3 = NaN;
  result.certificateDifferenceKgM3 = NaN;
  result.meterDifferenceL = NaN;
  result.netDifferenceL = NaN;
  result.proposedVolumeL = NaN;
  result.densityUncertaintyKgM3 = NaN;
  result.massUncertaintyKg = NaN;
}
