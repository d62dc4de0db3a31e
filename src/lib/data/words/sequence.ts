import type { SequenceFlag } from '#lib/core/sequence/index.ts';

/** What a refuelling or ticket says beside the one before it on its aircraft or meter. */
export const sequenceWords: Record<SequenceFlag, string> = {
  arrivalEqualsPreviousDeparture: 'arrival fuel equal to the last departure fuel',
  arrivalAbovePreviousDeparture: 'arrival fuel above the last departure fuel',
  fuelRisenWithoutTicket: 'fuel risen without a ticket',
  continuesAtStation: 'same stay on the ground as the one before',
  meterStartEqualsPreviousStop: 'meter goes on where it stopped',
  meterStartAbovePreviousStop: 'meter starts above its last stop: a ticket may be missing between',
  meterStartBelowPreviousStop: 'meter starts below its last stop'
};
