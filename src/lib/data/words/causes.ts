import type {
  CauseCode,
  CauseFigure,
  CauseKind,
  CauseOutcome,
  CauseSign,
  GroupCauseCode
} from '#lib/core/causes/index.ts';

/** What each cause says of a record: always a supposition, never a finding. */
export const causeWords: Record<CauseCode, string> = {
  poundsAsKilograms: 'would fit if the gauge readings were pounds in a kilogram field',
  kilogramsAsPounds: 'would fit if the gauge readings were kilograms taken for pounds',
  kilogramsAsLitres: 'would fit if the volume field held kilograms',
  litresAsKilograms: 'would fit if litres had been taken for kilograms',
  litresTimesPoundsPerLitre:
    'would fit if litres had been multiplied by pounds per litre and kept as kilograms',
  usGallonsAsLitres: 'would fit if the volume were in US gallons, not litres',
  litresAsUsGallons: 'would fit if the volume were in litres, not US gallons',
  imperialGallonsAsLitres: 'would fit if the volume were in imperial gallons, not litres',
  litresAsImperialGallons: 'would fit if the volume were in litres, not imperial gallons',
  usGallonsAsImperial: 'would fit if the volume were in US gallons, not imperial ones',
  imperialGallonsAsUs: 'would fit if the volume were in imperial gallons, not US ones',
  usGallonsAsKilograms: 'would fit if US gallons had been taken for kilograms',
  cubicMetresAsLitres: 'would fit if the volume were in cubic metres, or its decimal mark misread',
  litresAsCubicMetres:
    'would fit if the volume were in litres, not cubic metres, or its decimal mark misread',
  defaultDensity: 'would fit if the density were a default that nobody measured',
  densityUnit: 'would fit if the density were in another unit',
  decimalShift: 'would fit if a decimal mark were one or two places off',
  transposedDigits: 'would fit if two neighbouring digits had changed places',
  singleDigit: 'would fit if one digit were wrong',
  staleArrival: 'would fit if the arrival fuel were the last departure fuel, copied',
  wrongTail: 'would fit if a ticket had gone to the wrong tail',
  duplicateTicket: 'would fit if one ticket were here twice',
  ticketMissing: 'would fit if a ticket were missing',
  meterNotReset: 'would fit if the meter had not been reset after the delivery before',
  meterRollOver: 'would fit if the meter register had passed zero',
  meterReadingsSwapped: 'would fit if meter start and stop were the wrong way round',
  netInGross: 'would fit if net and gross volume had been confused',
  density15AsObserved: 'would fit if the observed density were the one at 15 °C',
  fahrenheitAsCelsius: 'would fit if a temperature were in degrees Fahrenheit',
  defuelSign: 'would fit if the defuelled amount had the wrong sign',
  plannedAsGauge: 'would fit if the departure fuel were the planned figure, not a gauge reading',
  gaugeReadingsSwapped: 'would fit if arrival and departure fuel were the wrong way round',
  oneTank: 'would fit if all fuel had gone into the tanks of one side'
};

/** What looks the same as a cause but takes many records to see. */
export const groupCauseWords: Record<GroupCauseCode, string> = {
  groundBurnOmitted: 'ground burn left out',
  gaugeBias: 'a gauge that is off or frozen',
  meterBias: 'a meter that counts too much or too little',
  fuelMoved: 'fuel moved between tanks, drained, spilt or leaking',
  wrongCertificate: 'the certificate of another batch',
  secondVehicle: 'a second vehicle with the same amount',
  goodPresetting: 'a gauge that stopped at the order to the last digit'
};

export const causeKindWords: Record<CauseKind, string> = {
  slip: 'slip',
  gauge: 'gauge',
  meter: 'meter',
  density: 'density',
  procedure: 'procedure'
};

export const causeOutcomeWords: Record<CauseOutcome, string> = {
  nothingWrong: 'within its own scatter',
  named: 'one cause fits',
  cannotTell: 'cannot tell: several causes fit',
  unknown: 'unexplained'
};

export const causeFigureWords: Record<CauseFigure, string> = {
  none: '',
  volume: 'volume',
  arrivalFuel: 'arrival fuel',
  departureFuel: 'departure fuel',
  defuelled: 'defuelled',
  density: 'density',
  temperature: 'temperature'
};

/** Signs in a record that are worth a look where the discrepancy is small. */
export const causeSignWords: Record<CauseSign, string> = {
  densityNoFuel: 'density of no jet fuel',
  massIsPoundsPerLitre: 'recorded mass is litres times pounds per litre',
  temperatureOutOfWeather: 'temperature out of the range of weather',
  unbalanced: 'left and right unequal',
  aboveCapacity: 'more fuel than the tanks hold',
  meterRunsBackwards: 'meter stop below meter start',
  volumeIsMeterStop: 'volume equal to the meter stop',
  sameVolumeTwice: 'the same volume twice within minutes',
  defuelledNegative: 'defuelled amount below zero',
  arrivalAbovePrevious: 'arrival fuel above the last departure fuel',
  gaugeFell: 'gauge fell while fuelling',
  onOneSide: 'left and right differ by about the whole uplift'
};
