import type { Dictionary } from '#lib/data/columns/index.ts';

/** More texts than this are looked up by way of strings: such a column gains nothing from a second table. */
const mostTexts = 1 << 16;

/**
 * The codes that a dictionary gave to byte strings, in an open-addressing table: a text met before costs a hash of
 * its bytes and one comparison, and no string. One for each dictionary and encoding.
 */
export class ByteDictionary {
  readonly dictionary: Dictionary;
  /** Entry numbers from 1 by hash, 0 where free; twice as many places as entries at least. */
  #places = new Int32Array(256);
  #hashes = new Int32Array(128);
  #starts = new Int32Array(129);
  #codes = new Uint32Array(128);
  #pool = new Uint8Array(2048);
  #count = 0;

  constructor(dictionary: Dictionary) {
    this.dictionary = dictionary;
  }

  /** The code of the text in [from, to), which `textOf` gives where it was not met before. */
  code(bytes: Uint8Array, from: number, to: number, textOf: () => string): number {
    const hash = hashOf(bytes, from, to);
    const mask = this.#places.length - 1;
    let place = hash & mask;
    for (;;) {
      const entry = (this.#places[place] ?? 0) - 1;
      if (entry < 0) break;
      if (this.#hashes[entry] === hash && this.#isEntry(entry, bytes, from, to))
        return this.#codes[entry] ?? 0;
      place = (place + 1) & mask;
    }
    const code = this.dictionary.code(textOf());
    if (this.#count < mostTexts) this.#add(hash, bytes, from, to, code);
    return code;
  }

  #isEntry(entry: number, bytes: Uint8Array, from: number, to: number): boolean {
    const start = this.#starts[entry] ?? 0;
    const length = to - from;
    if ((this.#starts[entry + 1] ?? 0) - start !== length) return false;
    for (let i = 0; i < length; i++) if (this.#pool[start + i] !== bytes[from + i]) return false;
    return true;
  }

  #add(hash: number, bytes: Uint8Array, from: number, to: number, code: number): void {
    const entry = this.#count++;
    const start = this.#starts[entry] ?? 0;
    if (this.#count > this.#codes.length) this.#growEntries();
    if (start + to - from > this.#pool.length) this.#growPool(start + to - from);
    this.#pool.set(bytes.subarray(from, to), start);
    this.#starts[entry + 1] = start + to - from;
    this.#hashes[entry] = hash;
    this.#codes[entry] = code;
    if (this.#count * 2 > this.#places.length) this.#rehash();
    else this.#put(entry);
  }

  #put(entry: number): void {
    const mask = this.#places.length - 1;
    let place = (this.#hashes[entry] ?? 0) & mask;
    while (this.#places[place] !== 0) place = (place + 1) & mask;
    this.#places[place] = entry + 1;
  }

  #rehash(): void {
    this.#places = new Int32Array(this.#places.length * 2);
    for (let entry = 0; entry < this.#count; entry++) this.#put(entry);
  }

  #growEntries(): void {
    const size = this.#codes.length * 2;
    this.#hashes = copied(this.#hashes, new Int32Array(size));
    this.#starts = copied(this.#starts, new Int32Array(size + 1));
    this.#codes = copied(this.#codes, new Uint32Array(size));
  }

  #growPool(needed: number): void {
    this.#pool = copied(this.#pool, new Uint8Array(Math.max(needed, this.#pool.length * 2)));
  }
}

function copied<A extends Int32Array | Uint32Array | Uint8Array>(from: A, into: A): A {
  into.set(from);
  return into;
}

/** As FNV-1a, but four bytes a step where there are as many; the high bits are folded in for tables that look at the low ones. */
function hashOf(bytes: Uint8Array, from: number, to: number): number {
  let hash = 0x811c9dc5 ^ (to - from);
  let at = from;
  for (; at + 4 <= to; at += 4) {
    const four =
      (bytes[at] as number) |
      ((bytes[at + 1] as number) << 8) |
      ((bytes[at + 2] as number) << 16) |
      ((bytes[at + 3] as number) << 24);
    hash = Math.imul(hash ^ four, 0x9e3779b1);
    hash ^= hash >>> 16;
  }
  for (; at < to; at++) hash = Math.imul(hash ^ (bytes[at] as number), 0x01000193);
  return hash ^ (hash >>> 15);
}
