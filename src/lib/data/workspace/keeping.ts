import { packColumns, type StoredColumns, type StoredFile } from '#lib/data/store/index.ts';
import type { Ledger } from '#lib/data/ledger/index.ts';
import type { FileEntry } from './file-entry.ts';

/** What the store keeps of a file; its bytes only where the person lets it. */
export function storedFileOf(entry: FileEntry, keepFiles: boolean): StoredFile {
  const { id, name, bytes, order, layout, account, demo } = entry;
  return {
    id,
    name,
    bytes,
    order,
    layout,
    account,
    demo,
    sha256: entry.sha256 ?? '',
    source: keepFiles ? entry.source : null
  };
}

/** True for what is kept of a file that was the same as another: its name and its hash. */
export function isKeptCopy({ sha256, source, layout, account }: StoredFile): boolean {
  return sha256 !== '' && source === null && layout === null && account === null;
}

/** The columns of a file in the ledger, for the store. */
export function storedColumnsOf(ledger: Ledger, id: string, program: string): StoredColumns {
  const file = ledger.source.files.find((each) => each.id === id);
  const first = file?.firstRow ?? 0;
  const rows = file?.rowCount ?? 0;
  return { id, program, rows, columns: packColumns(ledger.source.columns, first, first + rows) };
}

/** Files up to this size are hashed before anything else: it takes no longer than a glance. */
export const hashedAtOnceBytes = 4 << 20;

const endBytes = 1 << 16;

async function sameBytes(a: Blob, b: Blob): Promise<boolean> {
  const [left, right] = await Promise.all([a.arrayBuffer(), b.arrayBuffer()]);
  const other = new Uint8Array(right);
  return left.byteLength === right.byteLength && new Uint8Array(left).every((byte, i) => byte === other[i]);
}

/**
 * True where two files may be the same: one size, and the same first and last 64 kB where both are at hand. Only then
 * does a file have to be hashed before it counts.
 */
export async function mayBeSameFile(a: FileEntry, b: FileEntry): Promise<boolean> {
  if (a.bytes !== b.bytes) return false;
  if (a.source === null || b.source === null) return true;
  return (
    (await sameBytes(a.source.slice(0, endBytes), b.source.slice(0, endBytes))) &&
    (await sameBytes(a.source.slice(-endBytes), b.source.slice(-endBytes)))
  );
}
