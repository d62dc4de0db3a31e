import type { LimitCheck } from '#lib/data/ledger/index.ts';
import type { LimitBase } from '#lib/data/settings/index.ts';
import { coreMarkWords } from './reconciliation.ts';

export const limitCheckWords: Record<LimitCheck, string> = {
  suspectedSlip: 'suspected slip',
  orderedOutside: 'ordered and delivered differ',
  tanksDisagree: 'tanks do not add up to the total',
  imbalanceOutside: 'left and right unequal',
  certificateOutside: 'density differs from the certificate',
  gradeOutside: 'density outside the grade',
  recordedUpliftDiffers: 'recorded uplift differs from the recomputed',
  recordedDiscrepancyDiffers: 'recorded discrepancy differs from the recomputed'
};

/** Every mark a record can be filtered by. */
export const markWords = { ...coreMarkWords, ...limitCheckWords };

export const limitBaseWords: Record<LimitBase, string> = {
  meteredMass: 'metered mass',
  expectedDeparture: 'expected departure fuel',
  higherOfExpectedAndIndicated: 'higher of expected and indicated departure fuel'
};
