const table = Uint32Array.from({ length: 256 }, (_, byte) => {
  let value = byte;
  for (let bit = 0; bit < 8; bit++) value = value & 1 ? 0xedb88320 ^ (value >>> 1) : value >>> 1;
  return value;
});

/** CRC-32 as ZIP and gzip use it (ISO 3309), of bytes as they come. */
export class Crc32 {
  #state = 0xffffffff;

  update(bytes: Uint8Array): void {
    let state = this.#state;
    for (const byte of bytes) state = (table[(state ^ byte) & 0xff] ?? 0) ^ (state >>> 8);
    this.#state = state;
  }

  /** The sum so far, 0 to 2^32 - 1. */
  get value(): number {
    return (this.#state ^ 0xffffffff) >>> 0;
  }
}
