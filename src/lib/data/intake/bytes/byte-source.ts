/**
 * The bytes of a blob from a place on, into buffers that the caller hands in and gets back. Read by slices: a byte
 * stream of a blob was suspected of never answering, now and then, in Chromium 156. From the second read on the next
 * slice is asked for beforehand, since waiting for one costs more than working on it.
 */
export class ByteSource {
  readonly #blob: Blob;
  #at: number;
  #isFirst = true;
  #ahead: Promise<ArrayBuffer> | null = null;
  #aheadEnd = 0;

  constructor(blob: Blob, start: number) {
    this.#blob = blob;
    this.#at = Math.min(start, blob.size);
  }

  /** Bytes of the blob up to the end of the last read. */
  get position(): number {
    return this.#at;
  }

  /**
   * Reads on until [from, to) of `buffer` is full or the blob is at its end; gives the buffer to go on with and where
   * the bytes end in it.
   */
  async fill(buffer: ArrayBuffer, from: number, to: number): Promise<{ buffer: ArrayBuffer; end: number }> {
    const end = Math.min(this.#at + to - from, this.#blob.size);
    const ahead = this.#aheadEnd === end ? this.#ahead : null;
    const bytes = new Uint8Array(await (ahead ?? this.#slice(this.#at, end)));
    new Uint8Array(buffer).set(bytes, from);
    this.#at = end;
    if (!this.#isFirst && end < this.#blob.size)
      this.#askAhead(end, Math.min(end + to - from, this.#blob.size));
    this.#isFirst = false;
    return { buffer, end: from + bytes.length };
  }

  #askAhead(from: number, to: number): void {
    this.#ahead = this.#slice(from, to);
    this.#aheadEnd = to;
    // A fault is met by the read that wants the slice; where none does, nobody need hear of it.
    this.#ahead.catch(() => undefined);
  }

  #slice(from: number, to: number): Promise<ArrayBuffer> {
    return this.#blob.slice(from, to).arrayBuffer();
  }
}
