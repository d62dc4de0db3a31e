const wanted = 3;
const longestWord = 40;

/** The first three words with a character beyond ASCII, as code units, for a person to see whether they read right. */
export class FirstWords {
  readonly #words: number[][] = [];
  #open: number[] | null = null;
  #tail: number[] = [];

  /** True while the next unit may belong to a word under way. */
  get isOpen(): boolean {
    return this.#open !== null;
  }

  get isFull(): boolean {
    return this.#words.length === wanted;
  }

  /** Begins a word at the first unit beyond ASCII in it, which is `units[at]`. */
  begin(units: Uint8Array | Uint16Array, at: number): void {
    if (this.isFull) return;
    const before = [...this.#tail, ...units.subarray(Math.max(0, at - longestWord), at)];
    const start = before.findLastIndex((unit) => !isWordUnit(unit)) + 1;
    this.#open = [...before.slice(start).slice(-longestWord), units[at] ?? 0];
  }

  /** Takes the unit after one of an open word. */
  push(unit: number): void {
    if (this.#open === null) return;
    if (isWordUnit(unit)) {
      if (this.#open.length < longestWord) this.#open.push(unit);
    } else {
      this.#words.push(this.#open);
      this.#open = null;
    }
  }

  /** Notes the end of a piece of units, so that a word that begins before a border is whole. */
  endPiece(units: Uint8Array | Uint16Array): void {
    this.#tail = [...this.#tail, ...units.subarray(-longestWord)].slice(-longestWord);
  }

  words(): readonly (readonly number[])[] {
    return this.#open === null ? this.#words : [...this.#words, this.#open];
  }
}

/** The first three words of a text with a character beyond ASCII, each as long as those of `FirstWords`. */
export function firstWordsOf(text: string): string[] {
  const found: string[] = [];
  for (const [word] of text.matchAll(/[0-9A-Za-z\u0080-\uffff]+/g)) {
    if (/[\u0080-\uffff]/.test(word)) found.push(word.slice(0, longestWord));
    if (found.length === wanted) break;
  }
  return found;
}

function isWordUnit(unit: number): boolean {
  const lower = unit | 0x20;
  return unit >= 0x80 || (unit >= 0x30 && unit <= 0x39) || (lower >= 0x61 && lower <= 0x7a);
}
