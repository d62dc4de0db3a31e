import type { RecordFilter } from '#lib/data/ledger/index.ts';
import type { QuestionContext } from './context.ts';

/** What the filter sentence and the stub say. */
export interface ScopeAnswer {
  readonly records: number;
  readonly refuellings: number;
  readonly allRecords: number;
  readonly allRefuellings: number;
  /** First and last instant of the selection, ms UTC; NaN where it is empty. */
  readonly fromMs: number;
  readonly untilMs: number;
  /** For each filter asked beside: how many records it would leave. */
  readonly without: readonly number[];
}

function period(times: Float64Array, rows: Uint32Array): { fromMs: number; untilMs: number } {
  let fromMs = Infinity;
  let untilMs = -Infinity;
  for (let i = 0; i < rows.length; i++) {
    const time = times[rows[i] as number] as number;
    if (time < fromMs) fromMs = time;
    if (time > untilMs) untilMs = time;
  }
  return rows.length === 0 ? { fromMs: NaN, untilMs: NaN } : { fromMs, untilMs };
}

/** Size and period of a selection, and what the filter would leave without each part. */
export function scope(
  context: QuestionContext,
  asked: { readonly filter: RecordFilter; readonly without: readonly RecordFilter[] }
): ScopeAnswer {
  const selection = context.select(asked.filter);
  const whole = context.select({});
  return {
    records: selection.rows.length,
    refuellings: selection.refuellings.length,
    allRecords: whole.rows.length,
    allRefuellings: whole.refuellings.length,
    ...period(context.ledger.source.columns.valuesOf('time'), selection.rows),
    without: asked.without.map((filter) => context.select(filter).rows.length)
  };
}
