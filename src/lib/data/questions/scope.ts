import { fieldsOfKind, type NameFieldName } from '#lib/data/record/index.ts';
import type { RecordFilter } from '#lib/data/ledger/index.ts';
import type { QuestionContext } from './context.ts';

/** A name and the refuellings of the whole workspace that carry it. */
export interface NameCount {
  readonly name: string;
  readonly refuellings: number;
}

/** What the filter sentence and the stub say. */
export interface ScopeAnswer {
  readonly records: number;
  readonly refuellings: number;
  readonly allRecords: number;
  readonly allRefuellings: number;
  /** First and last instant of the selection, ms UTC; NaN where it is empty. */
  readonly fromMs: number;
  readonly untilMs: number;
  /** Names to choose from. */
  readonly names: { readonly [N in NameFieldName]?: readonly NameCount[] };
  /** For each filter asked beside: how many records it would leave. */
  readonly without: readonly number[];
}

function period(times: Float64Array, rows: Uint32Array): { fromMs: number; untilMs: number } {
  let fromMs = Infinity;
  let untilMs = -Infinity;
  for (const row of rows) {
    const time = times[row] ?? NaN;
    if (time < fromMs) fromMs = time;
    if (time > untilMs) untilMs = time;
  }
  return rows.length === 0 ? { fromMs: NaN, untilMs: NaN } : { fromMs, untilMs };
}

/** Most names offered of one field; a field with more is one a person types into. */
const mostNames = 2_000;

function namesOf(context: QuestionContext, name: NameFieldName): NameCount[] {
  const column = context.ledger.source.columns.code(name);
  const counts = new Uint32Array(column.dictionary.size);
  const codes = column.codes();
  for (const row of context.select({}).refuellings) {
    const code = codes[row] ?? 0;
    counts[code] = (counts[code] ?? 0) + 1;
  }
  const found: NameCount[] = [];
  counts.forEach((refuellings, code) => {
    if (refuellings > 0) found.push({ name: column.dictionary.text(code), refuellings });
  });
  return found.sort((a, b) => (a.name < b.name ? -1 : 1)).slice(0, mostNames);
}

type Names = ScopeAnswer['names'];

/** Names to choose from do not hang on the filter. */
const namesKept = new WeakMap<QuestionContext, Names>();

function allNames(context: QuestionContext): Names {
  const kept = namesKept.get(context);
  if (kept !== undefined) return kept;
  const names: Names = Object.fromEntries(fieldsOfKind('name').map((name) => [name, namesOf(context, name)]));
  namesKept.set(context, names);
  return names;
}

/** Size and period of a selection, the names to choose from, and what the filter would leave without each part. */
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
    names: allNames(context),
    without: asked.without.map((filter) => context.select(filter).rows.length)
  };
}
