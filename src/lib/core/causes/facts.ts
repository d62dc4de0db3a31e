import type { CauseCode, CauseKind, GroupCauseCode } from './codes.ts';

/** What is known of a cause beforehand. */
export interface CauseFacts {
  readonly kind: CauseKind;
  /** What gives the same picture, in this record or over many. */
  readonly looksLike: readonly (CauseCode | GroupCauseCode)[];
  /** A published case of it, or that there is none. */
  readonly source: string;
}

const commonPractice = 'common practice, no source';
const gimli = 'Gimli, 1983 (C-GAUN), Board of Inquiry: litres x 1.77 lb/L taken as kilograms';
const imperialSlip = 'NASA ASRS 332865: 190 imperial gallons x 1.25 taken as US gallons';
const singleDigitSlips = 'NASA ASRS 1379064 (37 400 lb for 27 400) and 530341 (23 100 for 20 100)';
const notReset = 'first explanation offered for 9V-SVC, 2014 (TSIB), where the gauges were at fault';
const oneSide = 'EI-CBK, 2003 (AAIU 2005-014): all fuel into the left tank';

/** Kind, look-alikes and source of every cause that one record can show. */
export const causeFacts: Readonly<Record<CauseCode, CauseFacts>> = {
  poundsAsKilograms: { kind: 'slip', looksLike: ['ticketMissing'], source: gimli },
  kilogramsAsPounds: {
    kind: 'slip',
    looksLike: ['duplicateTicket', 'litresTimesPoundsPerLitre'],
    source: commonPractice
  },
  kilogramsAsLitres: { kind: 'slip', looksLike: ['imperialGallonsAsUs'], source: commonPractice },
  litresAsKilograms: { kind: 'slip', looksLike: ['usGallonsAsImperial'], source: commonPractice },
  litresTimesPoundsPerLitre: { kind: 'slip', looksLike: ['kilogramsAsPounds'], source: gimli },
  usGallonsAsLitres: { kind: 'slip', looksLike: ['ticketMissing'], source: commonPractice },
  litresAsUsGallons: { kind: 'slip', looksLike: [], source: commonPractice },
  imperialGallonsAsLitres: { kind: 'slip', looksLike: ['ticketMissing'], source: commonPractice },
  litresAsImperialGallons: { kind: 'slip', looksLike: [], source: commonPractice },
  usGallonsAsImperial: { kind: 'slip', looksLike: ['litresAsKilograms'], source: imperialSlip },
  imperialGallonsAsUs: { kind: 'slip', looksLike: ['kilogramsAsLitres'], source: imperialSlip },
  usGallonsAsKilograms: { kind: 'slip', looksLike: ['ticketMissing'], source: commonPractice },
  cubicMetresAsLitres: { kind: 'slip', looksLike: [], source: commonPractice },
  litresAsCubicMetres: { kind: 'slip', looksLike: [], source: commonPractice },
  defaultDensity: { kind: 'density', looksLike: ['meterBias'], source: commonPractice },
  densityUnit: { kind: 'slip', looksLike: [], source: commonPractice },
  decimalShift: { kind: 'slip', looksLike: [], source: commonPractice },
  transposedDigits: { kind: 'slip', looksLike: ['singleDigit'], source: commonPractice },
  singleDigit: {
    kind: 'slip',
    looksLike: ['transposedDigits', 'ticketMissing'],
    source: singleDigitSlips
  },
  staleArrival: { kind: 'slip', looksLike: ['gaugeBias', 'wrongTail'], source: commonPractice },
  wrongTail: { kind: 'slip', looksLike: ['duplicateTicket', 'ticketMissing'], source: commonPractice },
  duplicateTicket: {
    kind: 'slip',
    looksLike: ['kilogramsAsPounds', 'secondVehicle'],
    source: commonPractice
  },
  ticketMissing: { kind: 'slip', looksLike: ['gaugeBias', 'wrongTail'], source: commonPractice },
  meterNotReset: { kind: 'slip', looksLike: ['gaugeBias'], source: notReset },
  meterRollOver: { kind: 'slip', looksLike: ['meterReadingsSwapped'], source: commonPractice },
  meterReadingsSwapped: { kind: 'slip', looksLike: ['meterRollOver'], source: commonPractice },
  netInGross: { kind: 'procedure', looksLike: ['density15AsObserved'], source: commonPractice },
  density15AsObserved: { kind: 'density', looksLike: ['netInGross'], source: commonPractice },
  fahrenheitAsCelsius: { kind: 'slip', looksLike: ['wrongCertificate'], source: commonPractice },
  defuelSign: { kind: 'slip', looksLike: ['duplicateTicket'], source: commonPractice },
  plannedAsGauge: { kind: 'slip', looksLike: ['goodPresetting', 'gaugeBias'], source: commonPractice },
  gaugeReadingsSwapped: { kind: 'slip', looksLike: ['fuelMoved'], source: commonPractice },
  oneTank: { kind: 'procedure', looksLike: ['gaugeBias'], source: oneSide }
};

/** Kind of what only many records can show. */
export const groupCauseKinds: Readonly<Record<GroupCauseCode, CauseKind>> = {
  groundBurnOmitted: 'procedure',
  gaugeBias: 'gauge',
  meterBias: 'meter',
  fuelMoved: 'procedure',
  wrongCertificate: 'density',
  secondVehicle: 'procedure',
  goodPresetting: 'procedure'
};
