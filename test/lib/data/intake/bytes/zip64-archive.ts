import { crc32 } from 'node:zlib';

/** An archive with one stored file whose lengths and places stand in ZIP64 fields (PKWARE APPNOTE 4.3, 4.5.3). */
export function zip64Archive(name: string, content: Uint8Array): Uint8Array<ArrayBuffer> {
  const title = Buffer.from(name);
  const sum = crc32(content);
  const local = Buffer.alloc(30);
  local.writeUInt32LE(0x04034b50, 0);
  local.writeUInt32LE(sum, 14);
  local.writeUInt32LE(content.length, 18);
  local.writeUInt32LE(content.length, 22);
  local.writeUInt16LE(title.length, 26);

  const extra = Buffer.alloc(28);
  extra.writeUInt16LE(1, 0);
  extra.writeUInt16LE(24, 2);
  extra.writeBigUInt64LE(BigInt(content.length), 4);
  extra.writeBigUInt64LE(BigInt(content.length), 12);
  extra.writeBigUInt64LE(0n, 20);
  const entry = Buffer.alloc(46);
  entry.writeUInt32LE(0x02014b50, 0);
  entry.writeUInt32LE(sum, 16);
  for (const at of [20, 24, 42]) entry.writeUInt32LE(0xffffffff, at);
  entry.writeUInt16LE(title.length, 28);
  entry.writeUInt16LE(extra.length, 30);
  const directory = Buffer.concat([entry, title, extra]);
  const directoryAt = local.length + title.length + content.length;

  const end64 = Buffer.alloc(56);
  end64.writeUInt32LE(0x06064b50, 0);
  end64.writeBigUInt64LE(BigInt(directory.length), 40);
  end64.writeBigUInt64LE(BigInt(directoryAt), 48);
  const locator = Buffer.alloc(20);
  locator.writeUInt32LE(0x07064b50, 0);
  locator.writeBigUInt64LE(BigInt(directoryAt + directory.length), 8);
  const end = Buffer.alloc(22);
  end.writeUInt32LE(0x06054b50, 0);
  end.writeUInt32LE(0xffffffff, 12);
  end.writeUInt32LE(0xffffffff, 16);
  return Uint8Array.from(Buffer.concat([local, title, content, directory, end64, locator, end]));
}
