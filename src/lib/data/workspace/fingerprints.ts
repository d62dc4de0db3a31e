import { sha256OfText } from '#lib/data/digest/index.ts';
import { methodConstants } from '#lib/data/ledger/index.ts';
import type { Settings } from '#lib/data/settings/index.ts';
import type { FileEntry } from './file-entry.ts';

/** JSON with the keys of every object in order, so that equal things have equal texts. */
export function sortedJson(value: unknown): string {
  return JSON.stringify(value, (_key, part: unknown) => {
    if (typeof part !== 'object' || part === null || Array.isArray(part)) return part;
    return Object.fromEntries(Object.entries(part).sort(([a], [b]) => (a < b ? -1 : 1)));
  });
}

/**
 * Fingerprint of what the numbers rest on: the files by their hashes, how each was read, and the groupings undone.
 * The same for any order of import. Null while a hash is missing.
 */
export function dataFingerprint(entries: readonly FileEntry[], undone: readonly string[]): string | null {
  const used = entries.filter((entry) => entry.status === 'used');
  if (used.length === 0 || used.some((entry) => entry.sha256 === null)) return null;
  const parts = used
    .map((entry) => sortedJson([entry.sha256, entry.layout?.columns, entry.layout?.constants]))
    .sort();
  return sha256OfText(sortedJson([parts, [...undone].sort()]));
}

/** What method the numbers were made by: program, tables and their constants. */
export function methodVersion(program: string): string {
  return `${program} ${sha256OfText(methodConstants).slice(0, 8)}`;
}

/** Fingerprint of the data, every setting and the method: equal fingerprints, equal numbers. */
export function resultFingerprint(data: string | null, settings: Settings, program: string): string | null {
  return data === null ? null : sha256OfText(sortedJson([data, settings, methodVersion(program)]));
}
