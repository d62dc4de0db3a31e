/** A file in an archive, as the archive's directory at its end lists it. */
export interface ZipEntry {
  readonly name: string;
  /** 0 is stored, 8 is deflate (PKWARE APPNOTE 4.4.5). */
  readonly method: number;
  readonly isEncrypted: boolean;
  readonly isFolder: boolean;
  readonly crc32: number;
  readonly packedBytes: number;
  readonly bytes: number;
  /** Where the entry's local header starts. */
  readonly headerAt: number;
}

const endSignature = 0x06054b50;
const end64Signature = 0x06064b50;
const locatorSignature = 0x07064b50;
const entrySignature = 0x02014b50;
const localSignature = 0x04034b50;

const endBytes = 22;
const longestComment = 0xffff;
const locatorBytes = 20;
const entryBytes = 46;
const localBytes = 30;
const unknown32 = 0xffffffff;

/** The largest directory that is read: about 100,000 files with long names. */
const largestDirectory = 1 << 24;

/**
 * The directory of a ZIP archive, ZIP64 too, read from the archive's end (PKWARE APPNOTE 4.3); null where there is
 * none that holds together.
 */
export async function readZipDirectory(archive: Blob): Promise<ZipEntry[] | null> {
  try {
    const place = await findDirectory(archive);
    if (place === null || place.bytes > largestDirectory || place.at + place.bytes > archive.size)
      return null;
    return parseEntries(await viewOf(archive, place.at, place.bytes));
  } catch (error) {
    // A directory that points past its own end is a damaged one.
    if (error instanceof RangeError) return null;
    throw error;
  }
}

/** The bytes of an entry as they are packed, null where its local header does not stand where it should. */
export async function packedBytesOf(archive: Blob, entry: ZipEntry): Promise<Blob | null> {
  if (entry.headerAt + localBytes > archive.size) return null;
  const header = await viewOf(archive, entry.headerAt, localBytes);
  if (header.getUint32(0, true) !== localSignature) return null;
  const start = entry.headerAt + localBytes + header.getUint16(26, true) + header.getUint16(28, true);
  return start + entry.packedBytes > archive.size ? null : archive.slice(start, start + entry.packedBytes);
}

async function viewOf(archive: Blob, at: number, bytes: number): Promise<DataView> {
  return new DataView(await archive.slice(at, at + bytes).arrayBuffer());
}

async function findDirectory(archive: Blob): Promise<{ at: number; bytes: number } | null> {
  const tailAt = Math.max(0, archive.size - endBytes - longestComment);
  const tail = await viewOf(archive, tailAt, archive.size - tailAt);
  let end = tail.byteLength - endBytes;
  while (end >= 0 && tail.getUint32(end, true) !== endSignature) end--;
  if (end < 0) return null;
  const bytes = tail.getUint32(end + 12, true);
  const at = tail.getUint32(end + 16, true);
  if (bytes !== unknown32 && at !== unknown32) return { at, bytes };
  return findDirectory64(archive, tailAt + end - locatorBytes);
}

async function findDirectory64(
  archive: Blob,
  locatorAt: number
): Promise<{ at: number; bytes: number } | null> {
  if (locatorAt < 0) return null;
  const locator = await viewOf(archive, locatorAt, locatorBytes);
  if (locator.getUint32(0, true) !== locatorSignature) return null;
  const end = await viewOf(archive, number64(locator, 8), 56);
  if (end.getUint32(0, true) !== end64Signature) return null;
  return { bytes: number64(end, 40), at: number64(end, 48) };
}

function parseEntries(view: DataView): ZipEntry[] {
  const entries: ZipEntry[] = [];
  let at = 0;
  while (at + entryBytes <= view.byteLength && view.getUint32(at, true) === entrySignature) {
    const nameBytes = view.getUint16(at + 28, true);
    const extraBytes = view.getUint16(at + 30, true);
    const flags = view.getUint16(at + 8, true);
    const nameAt = at + entryBytes;
    const name = decodeName(new Uint8Array(view.buffer, nameAt, nameBytes));
    const wide = new WideFields(view, nameAt + nameBytes, extraBytes);
    const bytes = wide.next(view.getUint32(at + 24, true));
    const packedBytes = wide.next(view.getUint32(at + 20, true));
    entries.push({
      name,
      method: view.getUint16(at + 10, true),
      isEncrypted: (flags & 1) === 1,
      isFolder: name.endsWith('/'),
      crc32: view.getUint32(at + 16, true),
      packedBytes,
      bytes,
      headerAt: wide.next(view.getUint32(at + 42, true))
    });
    at = nameAt + nameBytes + extraBytes + view.getUint16(at + 32, true);
  }
  return entries;
}

/** The numbers too large for their fields, in the ZIP64 extra field in the order of those fields (APPNOTE 4.5.3). */
class WideFields {
  readonly #view: DataView;
  #at = -1;
  #end = -1;

  constructor(view: DataView, from: number, bytes: number) {
    this.#view = view;
    for (let at = from; at + 4 <= from + bytes; at += 4 + view.getUint16(at + 2, true)) {
      if (view.getUint16(at, true) !== 1) continue;
      this.#at = at + 4;
      this.#end = this.#at + view.getUint16(at + 2, true);
    }
  }

  next(narrow: number): number {
    if (narrow !== unknown32 || this.#at < 0 || this.#at + 8 > this.#end) return narrow;
    this.#at += 8;
    return number64(this.#view, this.#at - 8);
  }
}

function number64(view: DataView, at: number): number {
  return view.getUint32(at, true) + view.getUint32(at + 4, true) * 2 ** 32;
}

/** A name in UTF-8 where it is valid; older archives use a code page that only shows in letters beyond ASCII. */
function decodeName(bytes: Uint8Array): string {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    return Array.from(bytes, (byte) => (byte < 0x80 ? String.fromCharCode(byte) : '\ufffd')).join('');
  }
}
