/**
 * Findings on a record that hang on a limit or a cause, apart from the verdict. The index is the bit that is stored,
 * so entries are only ever appended.
 */
export const limitChecks = [
  'suspectedSlip',
  'orderedOutside',
  'tanksDisagree',
  'imbalanceOutside',
  'certificateOutside',
  'gradeOutside',
  'recordedUpliftDiffers',
  'recordedDiscrepancyDiffers'
] as const;
export type LimitCheck = (typeof limitChecks)[number];

export const limitCheckBits = Object.fromEntries(
  limitChecks.map((check, index) => [check, 1 << index])
) as Record<LimitCheck, number>;
