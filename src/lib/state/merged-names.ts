import type { NameFieldName } from '#lib/data/record/index.ts';
import type { MergedName } from '#lib/data/settings/index.ts';

/** The merged names of the settings after all spellings of a group are counted as one of them. */
export function mergeInto(
  merged: readonly MergedName[],
  field: NameFieldName,
  names: readonly string[],
  to: string
): MergedName[] {
  const others = names.filter((name) => name !== to);
  return [...takeApart(merged, field, names), ...others.map((from) => ({ field, from, to }))];
}

/** The merged names without those of a group. */
export function takeApart(
  merged: readonly MergedName[],
  field: NameFieldName,
  names: readonly string[]
): MergedName[] {
  return merged.filter((each) => each.field !== field || !names.includes(each.from));
}
