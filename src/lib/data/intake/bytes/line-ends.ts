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

  counts(): LineEndCounts {
    return { crlf: this.#crlf, lf: this.#lf, cr: this.#cr + (this.#afterCr ? 1 : 0) };
  }

  /** Line ends met so far, one that may still become a CRLF not counted. */
  get total(): number {
    return this.#crlf + this.#lf + this.#cr;
  }
}
