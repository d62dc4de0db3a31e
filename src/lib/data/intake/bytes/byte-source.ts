/**
 * The bytes of a blob from a place on, into buffers that the caller hands in and gets back. Read by slices: a byte
 * stream of a blob was suspected of never answering, now and then, in Chromium 156.
 */
export class ByteSource {
  readonly #blob: Blob;
  #at: number;

  constructor(blob: Blob, start: number) {
    this.#blob = blob;
    this.#at = Math.min(start, blob.size);
  }

  /** Bytes of the blob up to the end of the last read. */
  get position(): number {
    return this.#at;
  }

  /**
   * Reads on until [from, to) of `buffer` is full or the blob is at its end; gives the buffer to go on with, the one
   * handed in being detached, and where the bytes end in it.
   */
  async fill(buffer: ArrayBuffer, from: number, to: number): Promise<{ buffer: ArrayBuffer; end: number }> {
    let target = buffer;
    let end = from;
    while (end < to && this.#at < this.#blob.size) {
      const read = await this.#read(target, end, to - end);
      target = read.buffer;
      if (read.bytes === 0) break;
      end += read.bytes;
      this.#at += read.bytes;
    }
    return { buffer: target, end };
  }

  async #read(
    buffer: ArrayBuffer,
    offset: number,
    most: number
  ): Promise<{ buffer: ArrayBuffer; bytes: number }> {
    const bytes = new Uint8Array(await this.#blob.slice(this.#at, this.#at + most).arrayBuffer());
    new Uint8Array(buffer).set(bytes, offset);
    return { buffer, bytes: bytes.length };
  }
}
