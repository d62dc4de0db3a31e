import { guessEncoding, headBytes } from './encoding.ts';
import { readZipDirectory } from './zip-directory.ts';

export type FileKind =
  | 'empty'
  /** Text in one of the encodings read, a table perhaps. */
  | 'text'
  /** Text in angle brackets: a page saved from a browser, or a table that a portal calls a workbook. */
  | 'webPage'
  | 'gzip'
  | 'zip'
  /** A workbook in a ZIP archive. */
  | 'spreadsheet'
  /** The binary container of workbooks before that, and of other office files. */
  | 'oldSpreadsheet'
  | 'pdf'
  /** Compressed or packed in a way that is not opened here. */
  | 'otherArchive'
  | 'picture'
  /** A formatted document of a word processor. */
  | 'document'
  /** Text in braces: data of a program rather than a table. */
  | 'json'
  | 'binary';

/** Magic bytes at the start of a file. */
const magics: readonly (readonly [readonly number[], FileKind])[] = [
  [[0x1f, 0x8b, 0x08], 'gzip'],
  [[0x50, 0x4b, 0x03, 0x04], 'zip'],
  [[0x50, 0x4b, 0x05, 0x06], 'zip'],
  [[0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1], 'oldSpreadsheet'],
  [[0x25, 0x50, 0x44, 0x46, 0x2d], 'pdf'],
  [[0x37, 0x7a, 0xbc, 0xaf, 0x27, 0x1c], 'otherArchive'],
  [[0x52, 0x61, 0x72, 0x21, 0x1a, 0x07], 'otherArchive'],
  [[0x42, 0x5a, 0x68], 'otherArchive'],
  [[0xfd, 0x37, 0x7a, 0x58, 0x5a], 'otherArchive'],
  [[0x28, 0xb5, 0x2f, 0xfd], 'otherArchive'],
  [[0x89, 0x50, 0x4e, 0x47], 'picture'],
  [[0xff, 0xd8, 0xff], 'picture'],
  [[0x47, 0x49, 0x46, 0x38], 'picture'],
  [[0x7b, 0x5c, 0x72, 0x74, 0x66], 'document'],
  [[0x50, 0x41, 0x52, 0x31], 'binary'],
  [[0x53, 0x51, 0x4c, 0x69, 0x74, 0x65, 0x20, 0x66], 'binary']
];

/** Text with more control characters than this share of its bytes is none. */
const mostControls = 0.05;

/** What a file is by its bytes; its name is not looked at. */
export async function recogniseFile(source: Blob): Promise<FileKind> {
  if (source.size === 0) return 'empty';
  const head = new Uint8Array(await source.slice(0, headBytes).arrayBuffer());
  const kind = magics.find(([magic]) => magic.every((byte, i) => head[i] === byte))?.[1];
  if (kind === 'zip') return (await isWorkbook(source)) ? 'spreadsheet' : 'zip';
  return kind ?? textKind(head);
}

async function isWorkbook(archive: Blob): Promise<boolean> {
  const entries = (await readZipDirectory(archive)) ?? [];
  return entries.some(({ name }) => name === '[Content_Types].xml' || name === 'META-INF/manifest.xml');
}

function textKind(head: Uint8Array): FileKind {
  const { name, bomBytes } = guessEncoding(head);
  const isWide = name === 'utf-16le' || name === 'utf-16be';
  if (!isWide && controlShare(head) > mostControls) return 'binary';
  const text = new TextDecoder(name).decode(head.subarray(bomBytes, bomBytes + 1000)).trimStart();
  if (/^<(!doctype|html|head|body|table|\?xml)\b/i.test(text)) return 'webPage';
  return /^(\[\s*)?\{\s*"[^"\n]{1,80}"\s*:/.test(text) ? 'json' : 'text';
}

/** NUL bytes at the end aside: a program or machine that stopped in mid-file leaves a block of them. */
function controlShare(bytes: Uint8Array): number {
  let end = bytes.length;
  while (end > 0 && bytes[end - 1] === 0) end--;
  let controls = 0;
  for (let i = 0; i < end; i++) {
    const byte = bytes[i] ?? 0;
    if (byte < 9 || (byte > 13 && byte < 32)) controls++;
  }
  return end === 0 ? 1 : controls / end;
}
