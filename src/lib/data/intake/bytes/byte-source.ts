/** A slice costs about a millisecond to ask for, however short it is. */
const sliceBytes = 4 << 20;

/**
 * The bytes of a blob from a place on, into buffers that the caller hands in and gets back. Read by slices: a byte
 * stream of a blob was suspected of never answering, now and then, in Chromium 156. The first slice is as long as the
 * first read, which may be the only one; from then on they are long, and the next is asked for beforehand, since
 * waiting for one costs more than working on it.
 */
export class ByteSource {
  readonly #blob: Blob;
  #at: number;
  #slice = new Uint8Array(0);
  /** How many bytes of the slice at hand are given out. */
  #taken = 0;
  /** End of the last slice asked for. */
  #askedTo: number;
  #ahead: Promise<ArrayBuffer> | null = null;
  readonly #onFetched: ((bytes: Uint8Array, at: number) => void) | undefined;

  /** `onFetched` sees each slice before its bytes are given out. */
  constructor(blob: Blob, start: number, onFetched?: (bytes: Uint8Array, at: number) => void) {
    this.#blob = blob;
    this.#onFetched = onFetched;
    this.#at = Math.min(start, blob.size);
    this.#askedTo = this.#at;
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
    const into = new Uint8Array(buffer);
    let end = from;
    while (end < to && this.#at < this.#blob.size) {
      if (this.#taken === this.#slice.length) await this.#next(to - end);
      const part = this.#slice.subarray(this.#taken, this.#taken + to - end);
      into.set(part, end);
      end += part.length;
      this.#taken += part.length;
      this.#at += part.length;
    }
    return { buffer, end };
  }

  async #next(bytes: number): Promise<void> {
    const isFirst = this.#slice.length === 0;
    const asked = this.#ahead ?? this.#ask(isFirst ? bytes : sliceBytes);
    this.#ahead = null;
    this.#slice = new Uint8Array(await asked);
    this.#taken = 0;
    this.#onFetched?.(this.#slice, this.#at);
    if (isFirst || this.#askedTo === this.#blob.size) return;
    this.#ahead = this.#ask(sliceBytes);
    // A fault is met by the read that wants the slice; where none does, nobody need hear of it.
    this.#ahead.catch(() => undefined);
  }

  #ask(bytes: number): Promise<ArrayBuffer> {
    const from = this.#askedTo;
    this.#askedTo = Math.min(from + bytes, this.#blob.size);
    return this.#blob.slice(from, this.#askedTo).arrayBuffer();
  }
}
