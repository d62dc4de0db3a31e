/**
 * Strict UTF-8 over bytes as they come: the well-formed sequences of the Unicode Standard, table 3-7, so no overlong
 * forms, surrogates or values past U+10FFFF.
 */
export class Utf8Check {
  /** Well-formed characters beyond ASCII. */
  characters = 0;
  /** Ill-formed sequences. */
  faults = 0;
  #needed = 0;
  #lowest = 0x80;
  #highest = 0xbf;

  /** True between two characters. */
  get isIdle(): boolean {
    return this.#needed === 0;
  }

  /** Takes the next byte; true where it shows a fault. */
  push(byte: number): boolean {
    if (this.#needed === 0) return byte >= 0x80 && this.#lead(byte);
    if (byte >= this.#lowest && byte <= this.#highest) {
      this.#lowest = 0x80;
      this.#highest = 0xbf;
      if (--this.#needed === 0) this.characters++;
      return false;
    }
    // The sequence breaks off here, and this byte may begin another.
    this.#fault();
    if (byte >= 0x80) this.#lead(byte);
    return true;
  }

  /** Ends the text; true where it ends within a character. */
  end(): boolean {
    return this.#needed > 0 && this.#fault();
  }

  #lead(byte: number): boolean {
    if (byte < 0xc2 || byte > 0xf4) return this.#fault();
    this.#needed = byte < 0xe0 ? 1 : byte < 0xf0 ? 2 : 3;
    this.#lowest = byte === 0xe0 ? 0xa0 : byte === 0xf0 ? 0x90 : 0x80;
    this.#highest = byte === 0xed ? 0x9f : byte === 0xf4 ? 0x8f : 0xbf;
    return false;
  }

  #fault(): true {
    this.faults++;
    this.#needed = 0;
    this.#lowest = 0x80;
    this.#highest = 0xbf;
    return true;
  }
}
