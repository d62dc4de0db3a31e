/** Walks over one cell; each `take` moves on only if it finds what it looks for. */
export class Cursor {
  at = 0;
  readonly text: string;
  #digits = 0;

  constructor(text: string) {
    this.text = text;
  }

  /** Digits of the last number taken. */
  digits(): number {
    return this.#digits;
  }

  get done(): boolean {
    return this.at >= this.text.length;
  }

  /** Nothing more is found in this cell. */
  fail(): false {
    this.at = -1;
    return false;
  }

  get next(): string {
    return this.text.charAt(this.at);
  }

  isDigit(): boolean {
    const code = this.text.charCodeAt(this.at);
    return code >= 48 && code <= 57;
  }

  /** The number at the cursor, NaN where there is none. */
  takeNumber(): number {
    let value = 0;
    const start = this.at;
    while (this.isDigit()) value = value * 10 + this.text.charCodeAt(this.at++) - 48;
    this.#digits = this.at - start;
    return this.#digits === 0 ? NaN : value;
  }

  /** Letters at the cursor, accents too. */
  takeWord(): string {
    const start = this.at;
    while (!this.done && isLetter(this.text.charCodeAt(this.at))) this.at++;
    return this.text.slice(start, this.at);
  }

  /** Takes one of the characters given; empty where none of them is next. */
  takeOne(of: string): string {
    if (this.done || !of.includes(this.next)) return '';
    return this.text.charAt(this.at++);
  }

  skipBlanks(): boolean {
    const start = this.at;
    while (!this.done && isBlank(this.text.charCodeAt(this.at))) this.at++;
    return this.at > start;
  }
}

function isLetter(code: number): boolean {
  return (
    (code >= 65 && code <= 90) ||
    (code >= 97 && code <= 122) ||
    (code >= 192 && code < 0x2000 && code !== 215)
  );
}

function isBlank(code: number): boolean {
  return code === 32 || code === 9 || code === 0xa0 || code === 0x202f || code === 0x2009;
}
