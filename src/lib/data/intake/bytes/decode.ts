import type { Dialect } from '../tokeniser.ts';

/** Bytes to text, piece by piece: a character cut by the end of a piece comes with the next one. */
export interface PieceDecoder {
  /** The text of a piece; `last` gives out what is left over, a cut character as U+FFFD. */
  decode(bytes: Uint8Array, last: boolean): string;
}

// 0x80 to 0x9F of windows-1252 as the WHATWG Encoding Standard has it, index-windows-1252. Written out because not
// every engine's decoder follows it; the five bytes without a character stay C1 controls.
const upperRow =
  '\u20ac\u0081\u201a\u0192\u201e\u2026\u2020\u2021\u02c6\u2030\u0160\u2039\u0152\u008d\u017d\u008f' +
  '\u0090\u2018\u2019\u201c\u201d\u2022\u2013\u2014\u02dc\u2122\u0161\u203a\u0153\u009d\u017e\u0178';

const unitOfByte = Uint16Array.from({ length: 256 }, (_, byte) =>
  byte >= 0x80 && byte < 0xa0 ? upperRow.charCodeAt(byte - 0x80) : byte
);

class SingleByteDecoder implements PieceDecoder {
  readonly #decoder = new TextDecoder('utf-16le', { ignoreBOM: true });

  decode(bytes: Uint8Array): string {
    const units = new Uint8Array(bytes.length * 2);
    for (let i = 0; i < bytes.length; i++) {
      const unit = unitOfByte[bytes[i] ?? 0] ?? 0;
      units[2 * i] = unit & 0xff;
      units[2 * i + 1] = unit >> 8;
    }
    return this.#decoder.decode(units);
  }
}

class StreamingDecoder implements PieceDecoder {
  readonly #decoder: TextDecoder;

  constructor(encoding: Dialect['encoding']) {
    // The byte order mark is left out by its place; met elsewhere it stays a character of the text.
    this.#decoder = new TextDecoder(encoding, { ignoreBOM: true });
  }

  decode(bytes: Uint8Array, last: boolean): string {
    return this.#decoder.decode(bytes, { stream: !last });
  }
}

/** A decoder for one pass over one file; bytes that are no text become U+FFFD. */
export function pieceDecoder(encoding: Dialect['encoding']): PieceDecoder {
  return encoding === 'windows-1252' ? new SingleByteDecoder() : new StreamingDecoder(encoding);
}

/** The text of bytes that stand alone. */
export function decodeBytes(bytes: Uint8Array, encoding: Dialect['encoding']): string {
  return pieceDecoder(encoding).decode(bytes, true);
}

/** The text of a file's first bytes after its byte order mark, a character cut at the end left out. */
export async function headText(
  source: Blob,
  { encoding, bomBytes }: Pick<Dialect, 'encoding' | 'bomBytes'>,
  most: number
): Promise<{ text: string; isWhole: boolean }> {
  const bytes = new Uint8Array(await source.slice(bomBytes, bomBytes + most).arrayBuffer());
  const isWhole = bomBytes + bytes.length === source.size;
  return { text: pieceDecoder(encoding).decode(bytes, isWhole), isWhole };
}
