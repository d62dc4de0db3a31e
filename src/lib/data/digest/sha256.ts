import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex } from '@noble/hashes/utils.js';

/** SHA-256 (FIPS 180-4) of bytes as they come. */
export class Sha256 {
  readonly #hash = sha256.create();

  update(bytes: Uint8Array): this {
    this.#hash.update(bytes);
    return this;
  }

  /** 64 lower-case hex digits; nothing can be added after it. */
  hex(): string {
    return bytesToHex(this.#hash.digest());
  }
}

/** Asking for a slice costs about a millisecond, however short it is. */
const sliceBytes = 4 << 20;
/** Hashing so much takes about a frame: then other work is let in. */
const pieceBytes = 1 << 20;

/** SHA-256 of a blob read slice by slice, in hex; null where `onBytes`, told the bytes behind, asked to stop. */
export async function sha256OfBlob(
  blob: Blob,
  onBytes: (bytes: number) => Promise<boolean> | boolean
): Promise<string | null>;
export async function sha256OfBlob(blob: Blob): Promise<string>;
export async function sha256OfBlob(
  blob: Blob,
  onBytes?: (bytes: number) => Promise<boolean> | boolean
): Promise<string | null> {
  const hash = new Sha256();
  for (let at = 0; at < blob.size; at += sliceBytes) {
    const bytes = new Uint8Array(await blob.slice(at, at + sliceBytes).arrayBuffer());
    for (let from = 0; from < bytes.length; from += pieceBytes) {
      const piece = bytes.subarray(from, from + pieceBytes);
      hash.update(piece);
      if (onBytes !== undefined && !(await onBytes(at + from + piece.length))) return null;
    }
  }
  return hash.hex();
}

/** SHA-256 of a text's UTF-8, in hex. */
export function sha256OfText(text: string): string {
  return new Sha256().update(new TextEncoder().encode(text)).hex();
}
