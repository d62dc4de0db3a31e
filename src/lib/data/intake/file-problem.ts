import type { ProblemCode } from '#lib/data/words/index.ts';

/** Files larger than this are refused in words: 500 MB. */
export const largestFile = 500_000_000;
export const mostColumns = 1000;

/** First bytes of files that are no text: archives and workbooks, compressed files, pages, documents. */
const magics: readonly (readonly number[])[] = [
  [0x50, 0x4b, 0x03, 0x04],
  [0x1f, 0x8b],
  [0xd0, 0xcf, 0x11, 0xe0],
  [0x25, 0x50, 0x44, 0x46],
  [0x89, 0x50, 0x4e, 0x47]
];

/** Why a file cannot be read at all, by its size and first bytes. */
export async function problemOf(blob: Blob): Promise<ProblemCode | null> {
  if (blob.size === 0) return 'empty';
  if (blob.size > largestFile) return 'tooLarge';
  const start = new Uint8Array(await blob.slice(0, 64).arrayBuffer());
  if (magics.some((magic) => magic.every((byte, i) => start[i] === byte))) return 'notText';
  return /^\s*<(!doctype html|html)/i.test(new TextDecoder().decode(start)) ? 'webPage' : null;
}
