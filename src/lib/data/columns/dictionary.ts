/**
 * Texts of a column numbered in the order they were first met. Code 0 is the empty text and stands for "missing",
 * so a fresh code array means that nothing is recorded.
 */
export class Dictionary {
  readonly #texts: string[] = [''];
  readonly #codes = new Map<string, number>([['', 0]]);

  /** The number of codes, the missing one included: valid codes are 0 to size - 1. */
  get size(): number {
    return this.#texts.length;
  }

  /** The code of a text, a new one if it was not met before. */
  code(text: string): number {
    const known = this.#codes.get(text);
    if (known !== undefined) return known;
    const code = this.#texts.length;
    this.#texts.push(text);
    this.#codes.set(text, code);
    return code;
  }

  /** The code of a text already met, else undefined. */
  find(text: string): number | undefined {
    return this.#codes.get(text);
  }

  /** The text of a code; throws on a code never given out. */
  text(code: number): string {
    const text = this.#texts[code];
    if (text === undefined) throw new RangeError(`code: ${code}, need less than ${this.#texts.length}`);
    return text;
  }

  /** All texts by code. */
  texts(): readonly string[] {
    return this.#texts;
  }
}
