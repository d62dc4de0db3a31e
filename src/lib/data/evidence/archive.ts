import { zipSync, type Zippable } from 'fflate';

/** Files in one ZIP archive. The time kept with each is fixed, so that the same files give the same bytes. */
export function archiveOf(files: readonly { readonly name: string; readonly bytes: Uint8Array }[]): Blob {
  const entries: Zippable = {};
  for (const { name, bytes } of files) entries[name] = [bytes, { mtime: new Date(1980, 0, 1) }];
  return new Blob([new Uint8Array(zipSync(entries))], { type: 'application/zip' });
}
