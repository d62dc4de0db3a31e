import type { ByteSource } from '../bytes/byte-source.ts';
import { pieceDecoder } from '../bytes/decode.ts';
import type { Dialect } from '../tokeniser.ts';

/** A piece of a file's text, its line ends all LF. */
export interface TextPiece {
  readonly text: string;
  /** Bytes of the file up to the end of the piece. */
  readonly bytes: number;
  /** True where the piece ends with a line end of the file; not told of wide encodings. */
  readonly endsLine: boolean;
  readonly last: boolean;
}

/**
 * The text of a file of so many bytes in pieces that end with a line where they can, so that reading can start again at the byte where
 * one ended. A piece may break a line where that is longer than a chunk.
 */
export async function* textPieces(
  bytes: ByteSource,
  encoding: Dialect['encoding'],
  size: number,
  chunkBytes: number
): AsyncGenerator<TextPiece, void, undefined> {
  const decoder = pieceDecoder(encoding);
  const lineEnds = new LineEndsToLineFeeds();
  const isWide = encoding === 'utf-16le' || encoding === 'utf-16be';
  let buffer = new ArrayBuffer(chunkBytes);
  for (;;) {
    const chunkStart = bytes.position;
    const filled = await bytes.fill(buffer, 0, chunkBytes);
    buffer = filled.buffer;
    const chunk = new Uint8Array(buffer, 0, filled.end);
    const last = bytes.position === size;
    const cut = isWide ? 0 : chunk.lastIndexOf(0x0a) + 1;
    const piece = (from: number, to: number, isLast: boolean, endsLine: boolean): TextPiece => ({
      text: lineEnds.convert(decoder.decode(chunk.subarray(from, to), isLast), isLast),
      bytes: chunkStart + to,
      endsLine,
      last: isLast
    });
    if (cut > 0) yield piece(0, cut, last && cut === chunk.length, true);
    if (cut < chunk.length || (last && cut === 0)) yield piece(cut, chunk.length, last, false);
    if (last) return;
  }
}

/** Turns CRLF and a lone CR into LF over pieces that may break anywhere. */
class LineEndsToLineFeeds {
  #heldBack = '';

  convert(piece: string, last: boolean): string {
    let text = this.#heldBack + piece;
    this.#heldBack = '';
    if (!text.includes('\r')) return text;
    if (!last && text.endsWith('\r')) {
      this.#heldBack = '\r';
      text = text.slice(0, -1);
    }
    return text.replaceAll('\r\n', '\n').replaceAll('\r', '\n');
  }
}
