import { displayName } from './display-name.ts';
import { recogniseFile, type FileKind } from './recognise.ts';
import { largestFile, unpack, type UnpackFault, type UnpackOrder } from './unpack.ts';
import { packedBytesOf, readZipDirectory, type ZipEntry } from './zip-directory.ts';

/** A file of text, ready to be read as a table. */
export interface OpenedFile {
  /** The name to show; of a file in an archive its path there. */
  readonly name: string;
  readonly blob: Blob;
  /** The name of the archive it came in, null where it came as it is. */
  readonly archive: string | null;
}

/** Why a file cannot be opened as text. */
export type OpenFault =
  | Exclude<FileKind, 'text' | 'gzip' | 'zip'>
  | UnpackFault
  /** Encrypted: a password is asked for elsewhere. */
  | 'locked'
  /** Packed by a method other than deflate. */
  | 'methodUnknown'
  /** An archive in an archive. */
  | 'nestedArchive'
  /** More files in one archive, or more bytes, than are opened. */
  | 'tooManyFiles';

export interface NotOpened {
  readonly name: string;
  readonly archive: string | null;
  readonly fault: OpenFault;
}

export interface Opened {
  readonly files: readonly OpenedFile[];
  readonly notOpened: readonly NotOpened[];
}

type Progress = ((bytes: number) => Promise<boolean> | boolean) | undefined;

const mostEntries = 1000;
const mostBytesOfArchive = 4 * largestFile;

/**
 * The files of text in a file as it was given: itself, what is packed in it by gzip, or what a ZIP archive holds. Every
 * file that is none is named with the reason, folders and the shadows that some systems put beside files aside.
 * `onBytes` is told how many bytes are unpacked; false stops.
 */
export async function openFile(path: string, blob: Blob, onBytes?: Progress): Promise<Opened> {
  const name = displayName(path);
  const kind = await recogniseFile(blob);
  if (kind === 'zip') return openArchive(name, blob, onBytes);
  const result = await openText(name, null, blob, kind, largestFile, onBytes);
  return 'blob' in result ? { files: [result], notOpened: [] } : { files: [], notOpened: [result] };
}

/** A single file of text, unpacked once if it is packed. */
async function openText(
  name: string,
  archive: string | null,
  blob: Blob,
  kind: FileKind,
  mostBytes: number,
  onBytes: Progress
): Promise<OpenedFile | NotOpened> {
  if (kind === 'text') return { name, blob, archive };
  if (kind === 'zip') return { name, archive, fault: 'nestedArchive' };
  if (kind !== 'gzip') return { name, archive, fault: kind };
  const inner = await unpack(blob, { format: 'gzip', mostBytes, onBytes });
  if ('fault' in inner) return { name, archive, fault: inner.fault };
  const innerKind = await recogniseFile(inner.blob);
  const unpackedName = name.replace(/\.gz$/i, '');
  if (innerKind === 'text') return { name: unpackedName, blob: inner.blob, archive };
  const isPacked = innerKind === 'gzip' || innerKind === 'zip';
  return { name, archive, fault: isPacked ? 'nestedArchive' : innerKind };
}

async function openArchive(archive: string, blob: Blob, onBytes: Progress): Promise<Opened> {
  const entries = await readZipDirectory(blob);
  if (entries === null) return { files: [], notOpened: [{ name: archive, archive: null, fault: 'damaged' }] };
  const wanted = entries.filter((entry) => !entry.isFolder && !isShadow(entry.name));
  if (wanted.length === 0)
    return { files: [], notOpened: [{ name: archive, archive: null, fault: 'empty' }] };
  if (wanted.length > mostEntries) {
    return { files: [], notOpened: [{ name: archive, archive: null, fault: 'tooManyFiles' }] };
  }
  const files: OpenedFile[] = [];
  const notOpened: NotOpened[] = [];
  let before = 0;
  for (const entry of wanted) {
    const behind = before;
    const result = await openEntry(archive, blob, entry, mostBytesOfArchive - behind, (bytes) =>
      onBytes === undefined ? true : onBytes(behind + bytes)
    );
    if ('blob' in result) files.push(result);
    else notOpened.push(result);
    if ('fault' in result && result.fault === 'stopped') break;
    before += 'blob' in result ? result.blob.size : 0;
  }
  return { files, notOpened };
}

async function openEntry(
  archive: string,
  blob: Blob,
  entry: ZipEntry,
  mostBytes: number,
  onBytes: Progress
): Promise<OpenedFile | NotOpened> {
  const name = displayName(entry.name);
  const refuse = (fault: OpenFault): NotOpened => ({ name, archive, fault });
  if (entry.isEncrypted) return refuse('locked');
  const format = formatOf(entry.method);
  if (format === null) return refuse('methodUnknown');
  if (entry.bytes > largestFile) return refuse('unpacksTooLarge');
  if (entry.bytes > mostBytes) return refuse('tooManyFiles');
  const packed = await packedBytesOf(blob, entry);
  if (packed === null) return refuse('damaged');
  const unpacked = await unpack(packed, { format, check: entry, mostBytes: entry.bytes, onBytes });
  if ('fault' in unpacked) return refuse(unpacked.fault);
  return openText(name, archive, unpacked.blob, await recogniseFile(unpacked.blob), mostBytes, onBytes);
}

/** Resource forks and folder settings that some systems pack beside the files. */
function isShadow(name: string): boolean {
  return name.startsWith('__MACOSX/') || /(^|\/)(\.DS_Store|Thumbs\.db|desktop\.ini)$/i.test(name);
}

function formatOf(method: number): UnpackOrder['format'] | null {
  if (method === 0) return 'stored';
  return method === 8 ? 'deflate-raw' : null;
}
