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
  | 'binary';

/** Magic bytes at the start of a file. */
const magics: readonly (readonly [readonly number[], FileKind])[] = [
  [[0x1f, 0x8b, 0x08], 'gzip'],
  [[0x50, 0x4b, 0x03, 0x04], 'zip'],
  [[0x50, 0x4b, 0x05, 0x06], 'zip'],
  [[0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1], 'oldSpreadsheet'],
  [[0x25, 0x50, 0x44, 0x46, 0x2d], 'pdf']
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
  return /^<(!doctype|html|head|body|table|\?xml)\b/i.test(text) ? 'webPage' : 'text';
}

function controlShare(bytes: Uint8Array): number {
  let controls = 0;
  for (const byte of bytes) if (byte < 9 || (byte > 13 && byte < 32)) controls++;
  return controls / bytes.length;
}
