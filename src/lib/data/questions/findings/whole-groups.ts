import type { RecordFilter } from '#lib/data/ledger/index.ts';
import type { QuestionContext } from '../context.ts';
import type { Steps } from '#lib/core/statistics/index.ts';
import { groupCausesSteps } from '../group-causes.ts';
import type { CauseCode, GroupCauseCode, SameSide } from '#lib/core/causes/index.ts';
import type { NameFieldName } from '#lib/data/record/index.ts';

/** What would fit many records of one place together. */
export interface WholeGroup {
  readonly kind: 'wholeGroup';
  readonly field: NameFieldName;
  readonly name: string;
  readonly n: number;
  readonly strength: number;
  readonly cause: CauseCode | GroupCauseCode;
  /** In the unit of the cause: a share, kg, kg/m3 or %. */
  readonly size: number;
  readonly error: number;
  /** At how many places it goes the same way; null where it is a place itself. */
  readonly seen: SameSide | null;
}

/** What would fit whole groups, as findings: the clearer the sign, the further up. */
export function* wholeGroups(context: QuestionContext, filter: RecordFilter): Steps<WholeGroup[]> {
  const { causes } = yield* groupCausesSteps(context, { filter });
  return causes.map(({ field, name, cause, n, size, seen }) => ({
    kind: 'wholeGroup',
    field,
    name,
    n,
    cause,
    size: size.value,
    error: size.error,
    seen,
    strength: Math.log2(1 + Math.abs(size.value) / size.error)
  }));
}

/** Those of a place of which nothing else that it would explain is said: the rest is said beside that. */
export function notYetSaid(
  groups: readonly WholeGroup[],
  said: readonly { readonly kind: string; readonly field: NameFieldName; readonly name: string }[]
): WholeGroup[] {
  const explained = new Set(['moved', 'standsOff', 'oneDensity']);
  return groups.filter(
    ({ field, name }) =>
      !said.some((each) => explained.has(each.kind) && each.field === field && each.name === name)
  );
}
