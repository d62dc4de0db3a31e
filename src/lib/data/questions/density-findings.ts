import type { RecordFilter } from '#lib/data/ledger/index.ts';
import type { QuestionContext } from './context.ts';
import { densitySteps, type DensityStep } from './density-steps.ts';

/** The density of one supplier at one station stepped, and the discrepancy moved with it or not. */
export interface DensityStepped {
  readonly kind: 'densityStep';
  readonly field: 'station';
  readonly name: string;
  readonly supplier: string;
  /** Tickets it rests on. */
  readonly n: number;
  readonly strength: number;
  readonly byKgM3: number;
  readonly fromMs: number;
  readonly untilMs: number;
  readonly moved: DensityStep['moved'];
  /** How far the discrepancy moved, %, with its interval; NaN where it cannot be told. */
  readonly byPercent: number;
  readonly lowerPercent: number;
  readonly upperPercent: number;
  /** How far it would have moved had only the density on the ticket changed, %. */
  readonly ifWrittenPercent: number;
}

/** A step this large is worth a look, kg/m3: the certificate tolerance, secondary source. */
const noticedKgM3 = 3;
/** New fuel is no fault: such a step stands below one that took the discrepancy along. */
const harmless = 0.5;

/** Clear steps of density, each with what the discrepancy did. */
export function densityFindings(context: QuestionContext, filter: RecordFilter): DensityStepped[] {
  return densitySteps(context, { filter }).series.flatMap((series): DensityStepped[] => {
    const { step } = series;
    if (step?.isClear !== true) return [];
    const { discrepancy } = step;
    return [
      {
        kind: 'densityStep',
        field: 'station',
        name: series.station,
        supplier: series.supplier,
        n: series.tickets,
        strength: (Math.abs(step.byKgM3) / noticedKgM3) * (step.moved === 'unmoved' ? harmless : 1),
        byKgM3: step.byKgM3,
        fromMs: step.fromMs,
        untilMs: step.untilMs,
        moved: step.moved,
        byPercent: discrepancy.estimable ? discrepancy.differencePercent : NaN,
        lowerPercent: discrepancy.estimable ? discrepancy.lowerPercent : NaN,
        upperPercent: discrepancy.estimable ? discrepancy.upperPercent : NaN,
        ifWrittenPercent: step.ifWrittenPercent
      }
    ];
  });
}
