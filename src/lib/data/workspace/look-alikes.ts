import { lookAlikeKey } from '#lib/data/intake/index.ts';
import type { Ledger } from '#lib/data/ledger/index.ts';
import type { NameFieldName } from '#lib/data/record/index.ts';

/** Names of one field that look alike: different spellings of one thing, perhaps. Never merged by the program. */
export interface LookAlikes {
  readonly field: NameFieldName;
  readonly names: readonly string[];
}

/** Fields whose names are codes that people type: a look-alike is likelier a slip than another thing. */
const fields: readonly NameFieldName[] = ['station', 'tail', 'type', 'supplier', 'vehicle'];

/** More groups than this are not listed: then spelling is not the trouble. */
const mostGroups = 50;

export function lookAlikesOf(ledger: Ledger): LookAlikes[] {
  const found: LookAlikes[] = [];
  for (const field of fields) {
    const byKey = new Map<string, string[]>();
    for (const name of ledger.source.columns.code(field).dictionary.texts()) {
      if (name === '') continue;
      const key = lookAlikeKey(name);
      byKey.set(key, [...(byKey.get(key) ?? []), name]);
    }
    for (const names of byKey.values()) if (names.length > 1) found.push({ field, names: names.sort() });
  }
  return found.slice(0, mostGroups);
}
