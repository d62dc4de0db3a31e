import { Crc32 } from './crc32.ts';

/** The largest file that is unpacked. */
export const largestFile = 500 * 1024 * 1024;

/** Tables shrink to a tenth or, where rows repeat, a hundredth; what shrinks further is made to fill a memory. */
const highestRatio = 250;

/** Small files may shrink as they like. */
const ratioFrom = 10 * 1024 * 1024;

/** Bytes that are gathered before they become a part of a blob, which the browser can keep outside of memory. */
const partBytes = 8 * 1024 * 1024;

export type UnpackFault = 'damaged' | 'unpacksTooLarge' | 'stopped';
export type Unpacked = { readonly blob: Blob } | { readonly fault: UnpackFault };

export interface UnpackOrder {
  /** `stored` takes the bytes as they are. gzip carries a checksum of its own, the others need `check`. */
  readonly format: 'gzip' | 'deflate-raw' | 'stored';
  readonly check?: { readonly crc32: number; readonly bytes: number };
  /** Bytes that may be unpacked, `largestFile` at most. */
  readonly mostBytes: number;
  /** Told how many bytes are unpacked; false stops. */
  readonly onBytes?: ((bytes: number) => Promise<boolean> | boolean) | undefined;
}

/** Unpacks one file, stream by stream, and holds it to its checksum and to the limits. */
export async function unpack(packed: Blob, order: UnpackOrder): Promise<Unpacked> {
  const reader = streamOf(packed, order.format).getReader();
  const gathered = new Gathered();
  try {
    for (;;) {
      const { value, done } = await reader.read();
      if (done) break;
      gathered.add(value);
      const bytes = gathered.bytes;
      if (bytes > Math.min(order.mostBytes, largestFile) || isBomb(bytes, packed.size)) {
        return { fault: 'unpacksTooLarge' };
      }
      if (order.onBytes !== undefined && !(await order.onBytes(bytes))) return { fault: 'stopped' };
    }
  } catch (error) {
    // Streams report a broken file so; a file that can no longer be read is another matter.
    if (error instanceof TypeError || isCodecError(error)) return { fault: 'damaged' };
    throw error;
  } finally {
    await reader.cancel().catch(() => undefined);
  }
  const { check } = order;
  const isSound = check === undefined || (gathered.crc32 === check.crc32 && gathered.bytes === check.bytes);
  return isSound ? { blob: gathered.blob() } : { fault: 'damaged' };
}

function streamOf(packed: Blob, format: UnpackOrder['format']): ReadableStream<Uint8Array<ArrayBuffer>> {
  const stream = packed.stream();
  return format === 'stored' ? stream : stream.pipeThrough(new DecompressionStream(format));
}

function isBomb(bytes: number, packedBytes: number): boolean {
  return bytes > ratioFrom && bytes > packedBytes * highestRatio;
}

/** Outside browsers the codec reports by an error code of its own. */
function isCodecError(error: unknown): boolean {
  return error instanceof Error && 'code' in error && /^Z_|^ERR_/.test(String(error.code));
}

/** Bytes of a stream on their way into a blob. */
class Gathered {
  bytes = 0;
  readonly #crc = new Crc32();
  readonly #parts: Blob[] = [];
  #pending: Uint8Array<ArrayBuffer>[] = [];
  #pendingBytes = 0;

  get crc32(): number {
    return this.#crc.value;
  }

  add(chunk: Uint8Array<ArrayBuffer>): void {
    this.#crc.update(chunk);
    this.#pending.push(chunk);
    this.#pendingBytes += chunk.length;
    this.bytes += chunk.length;
    if (this.#pendingBytes >= partBytes) this.#flush();
  }

  blob(): Blob {
    this.#flush();
    return new Blob(this.#parts);
  }

  #flush(): void {
    this.#parts.push(new Blob(this.#pending));
    this.#pending = [];
    this.#pendingBytes = 0;
  }
}
