/** What a refuelling or ticket says beside the one before it. The bit of a flag is its index. */
export const sequenceFlags = [
  'arrivalEqualsPreviousDeparture',
  'arrivalAbovePreviousDeparture',
  'fuelRisenWithoutTicket',
  'continuesAtStation',
  'meterStartEqualsPreviousStop',
  'meterStartAbovePreviousStop',
  'meterStartBelowPreviousStop'
] as const;

export type SequenceFlag = (typeof sequenceFlags)[number];

const bit = (flag: SequenceFlag): number => 1 << sequenceFlags.indexOf(flag);

/** The bits of the flags. */
export const sequenceBits = {
  arrivalEqualsPreviousDeparture: bit('arrivalEqualsPreviousDeparture'),
  arrivalAbovePreviousDeparture: bit('arrivalAbovePreviousDeparture'),
  fuelRisenWithoutTicket: bit('fuelRisenWithoutTicket'),
  continuesAtStation: bit('continuesAtStation'),
  meterStartEqualsPreviousStop: bit('meterStartEqualsPreviousStop'),
  meterStartAbovePreviousStop: bit('meterStartAbovePreviousStop'),
  meterStartBelowPreviousStop: bit('meterStartBelowPreviousStop')
} as const;
