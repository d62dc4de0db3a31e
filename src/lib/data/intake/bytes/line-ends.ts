export interface LineEndCounts {
  readonly crlf: number;
  readonly lf: number;
  readonly cr: number;
}

/** Counts the line ends of text as it comes, those in quotes among them; pieces may break inside CRLF. */
export class LineEndCounter {
  #crlf = 0;
  #lf = 0;
  #cr = 0;
  #afterCr = false;

  /** Takes the next code unit. */
  push(unit: number): void {
    if (unit === 0x0a) {
      if (this.#afterCr) this.#crlf++;
      else this.#lf++;
    } else if (this.#afterCr) {
      this.#cr++;
    }
    this.#afterCr = unit === 0x0d;
  }

  /** Takes bytes at once. */
  pushAll(bytes: Uint8Array): void {
    const { length } = bytes;
    if (length === 0) return;
    this.push(bytes[0] ?? 0);
    for (let at = bytes.indexOf(0x0a, 1); at >= 0; at = bytes.indexOf(0x0a, at + 1)) {
      if (bytes[at - 1] === 0x0d) this.#crlf++;
      else this.#lf++;
    }
    for (let at = bytes.indexOf(0x0d, 0); at >= 0 && at < length - 1; at = bytes.indexOf(0x0d, at + 1)) {
      if (bytes[at + 1] !== 0x0a) this.#cr++;
    }
    this.#afterCr = bytes[length - 1] === 0x0d;
  }

  counts(): LineEndCounts {
    return { crlf: this.#crlf, lf: this.#lf, cr: this.#cr + (this.#afterCr ? 1 : 0) };
  }

  /** Line ends met so far, one that may still become a CRLF not counted. */
  get total(): number {
    return this.#crlf + this.#lf + this.#cr;
  }
}
