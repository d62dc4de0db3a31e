/** Who would have to look: only slips are faults of a single record that say nothing of gauge, meter or fuel. */
export const causeKinds = ['slip', 'gauge', 'meter', 'density', 'procedure'] as const;
export type CauseKind = (typeof causeKinds)[number];

/**
 * What one record can show. The index is the small integer callers keep, so entries are only ever appended. Where
 * a fault has two directions each has its own code: they say different things to the person who asks.
 */
export const causeCodes = [
  'poundsAsKilograms',
  'kilogramsAsPounds',
  'kilogramsAsLitres',
  'litresAsKilograms',
  'litresTimesPoundsPerLitre',
  'usGallonsAsLitres',
  'litresAsUsGallons',
  'imperialGallonsAsLitres',
  'litresAsImperialGallons',
  'usGallonsAsImperial',
  'imperialGallonsAsUs',
  'usGallonsAsKilograms',
  'cubicMetresAsLitres',
  'litresAsCubicMetres',
  'defaultDensity',
  'densityUnit',
  'decimalShift',
  'transposedDigits',
  'singleDigit',
  'staleArrival',
  'wrongTail',
  'duplicateTicket',
  'ticketMissing',
  'meterNotReset',
  'meterRollOver',
  'meterReadingsSwapped',
  'netInGross',
  'density15AsObserved',
  'fahrenheitAsCelsius',
  'defuelSign',
  'plannedAsGauge',
  'gaugeReadingsSwapped',
  'oneTank'
] as const;
export type CauseCode = (typeof causeCodes)[number];

/** What only many records together can show: never proposed here, but it looks the same as what is. */
export const groupCauseCodes = [
  'groundBurnOmitted',
  'gaugeBias',
  'meterBias',
  'fuelMoved',
  'wrongCertificate',
  'secondVehicle',
  'goodPresetting'
] as const;
export type GroupCauseCode = (typeof groupCauseCodes)[number];

/** What came out: nothing wrong, one cause named, several that cannot be told apart, or no cause that fits. */
export const causeOutcomes = ['nothingWrong', 'named', 'cannotTell', 'unknown'] as const;
export type CauseOutcome = (typeof causeOutcomes)[number];

/** The figure a cause would have changed, as index in `CauseProposals.figure`. */
export const causeFigures = [
  'none',
  'volume',
  'arrivalFuel',
  'departureFuel',
  'defuelled',
  'density',
  'temperature'
] as const;
export type CauseFigure = (typeof causeFigures)[number];
