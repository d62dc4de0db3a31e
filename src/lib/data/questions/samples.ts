import { clopperPearson, wilson } from '#lib/core/statistics/index.ts';
import { checkStates, type CheckFieldName } from '#lib/data/record/index.ts';
import type { GroupKey, RecordFilter } from '#lib/data/ledger/index.ts';
import type { QuestionContext } from './context.ts';

/** Outcomes of one sample check in one group of tickets. */
export interface SampleGroup {
  readonly name: string;
  readonly tickets: number;
  readonly passed: number;
  readonly failed: number;
  readonly notDone: number;
  readonly notRecorded: number;
  readonly notRequired: number;
  /** failed / (passed + failed) with its exact 95 % interval (Clopper-Pearson). */
  readonly rate: number;
  readonly rateLower: number;
  readonly rateUpper: number;
  /** (passed + failed) / (all but not required): a missing check is not a pass. */
  readonly coverage: number;
  readonly coverageLower: number;
  readonly coverageUpper: number;
}

export interface SamplesAnswer {
  readonly by: GroupKey;
  readonly check: CheckFieldName;
  readonly groups: readonly SampleGroup[];
  readonly all: SampleGroup;
}

function groupOf(counts: readonly number[], name: string): SampleGroup {
  const [notRecorded = 0, passed = 0, failed = 0, notDone = 0, notRequired = 0] = counts;
  const judged = passed + failed;
  const due = judged + notDone + notRecorded;
  const interval = judged > 0 ? clopperPearson(failed, judged) : { lower: NaN, upper: NaN };
  const covered = due > 0 ? wilson(judged, due) : { lower: NaN, upper: NaN };
  return {
    name,
    tickets: due + notRequired,
    passed,
    failed,
    notDone,
    notRecorded,
    notRequired,
    rate: judged > 0 ? failed / judged : NaN,
    rateLower: interval.lower,
    rateUpper: interval.upper,
    coverage: due > 0 ? judged / due : NaN,
    coverageLower: covered.lower,
    coverageUpper: covered.upper
  };
}

/** Failures, rate and coverage of one check per group. Tickets, not refuellings: each has a sample of its own. */
export function samples(
  context: QuestionContext,
  asked: { readonly filter: RecordFilter; readonly by: GroupKey; readonly check: CheckFieldName }
): SamplesAnswer {
  const { rows } = context.select(asked.filter);
  const grouping = context.group(asked.by);
  const states = context.ledger.source.columns.code(asked.check).codes();
  const width = checkStates.length;
  const counts = new Uint32Array(grouping.count * width);
  for (let i = 0; i < rows.length; i++) {
    const row = rows[i] ?? 0;
    const place = (grouping.codes[row] ?? 0) * width + (states[row] ?? 0);
    counts[place] = (counts[place] ?? 0) + 1;
  }
  const countsOf = (code: number) => [...counts.subarray(code * width, (code + 1) * width)];
  const groups: SampleGroup[] = [];
  const total = new Array<number>(width).fill(0);
  for (let code = 0; code < grouping.count; code++) {
    const ofGroup = countsOf(code);
    const group = groupOf(ofGroup, grouping.name(code));
    if (group.tickets > 0) groups.push(group);
    ofGroup.forEach((count, state) => (total[state] = (total[state] ?? 0) + count));
  }
  if (asked.by !== 'month' && asked.by !== 'size') groups.sort((a, b) => (a.name < b.name ? -1 : 1));
  return { by: asked.by, check: asked.check, groups, all: groupOf(total, '') };
}
