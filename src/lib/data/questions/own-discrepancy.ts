import { filled, type RobustFit, type Steps } from '#lib/core/statistics/index.ts';
import type { RecordFilter } from '#lib/data/ledger/index.ts';
import { crossedFit, crossedSelection, type CrossedSelection } from './attribution.ts';
import type { QuestionContext } from './context.ts';

/** Whose discrepancy is meant: an aircraft's with the vehicles taken off, or a vehicle's with the aircraft taken off. */
export type OwnSubject = 'tail' | 'vehicle';

/** Refuellings of a filter with the discrepancy that the other side does not explain. */
export interface OwnDiscrepancies {
  readonly records: CrossedSelection;
  readonly fit: RobustFit;
  /** Level of the subject, by refuelling. */
  readonly level: Int32Array;
  /** Discrepancy in kg less the mean of all and the other side's effect. */
  readonly ownKg: Float64Array;
  /** Relative precision of it, 0 where the refuelling was too wild to count. */
  readonly weight: Float64Array;
  readonly nameOf: (level: number) => string;
}

/** Null where too few refuellings are in hand, or they are too alike, to tell gauges from meters. */
export function* ownDiscrepancies(
  context: QuestionContext,
  filter: RecordFilter,
  subject: OwnSubject
): Steps<OwnDiscrepancies | null> {
  const records = yield* crossedSelection(context, filter);
  const fit = yield* crossedFit(context, filter, records);
  if (!fit.estimable) return null;
  const [level, other, effects] =
    subject === 'tail' ? [records.a, records.b, fit.b.effect] : [records.b, records.a, fit.a.effect];
  const { discrepancyKg } = context.ledger.computed;
  const { massKg: massesKg } = records;
  const { dictionary } = context.ledger.source.columns.code(subject);
  return {
    records,
    fit,
    level,
    ownKg: yield* filled(new Float64Array(massesKg.length), (k) => {
      const massKg = massesKg[k] ?? NaN;
      const share = (fit.mean + (effects[other[k] ?? -1] ?? NaN)) / 100;
      return (discrepancyKg[records.rows[k] ?? -1] ?? NaN) - massKg * Math.expm1(share);
    }),
    // Precision of a ratio is precisionWeight; of the kilograms it is less by the square of the mass.
    weight: yield* filled(new Float64Array(massesKg.length), (k) => {
      const massKg = massesKg[k] ?? NaN;
      return ((fit.robustWeight[k] ?? 0) * (fit.precisionWeight[k] ?? 0)) / (massKg * massKg);
    }),
    nameOf: (code) => dictionary.text(code)
  };
}
