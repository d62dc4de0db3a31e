import type { Row } from '#lib/charts/twin.ts';

/** Answers some rows of a long list: `count` of them from `start`, fewer at its end. */
export type RowSource = (start: number, count: number) => Promise<readonly Row[]>;

interface Chunk {
  chunk: number;
  rows: readonly Row[];
}

const CHUNK = 64;
const MOST_CHUNKS = 24;

/**
 * The rows around what is in view, asked for one chunk at a time. While an answer is awaited only the latest wish is kept,
 * so that dragging through millions of rows asks for few of them.
 */
export class RowWindow {
  #chunks = $state.raw<readonly Chunk[]>([]);
  #failed = $state(false);
  #source: RowSource | null = null;
  #wish: { first: number; end: number } = { first: 0, end: 0 };
  #busy = false;

  /** Whether the last question failed. */
  get failed(): boolean {
    return this.#failed;
  }

  /** The row at a place of the list; undefined while it is awaited. */
  row(index: number): Row | undefined {
    return this.#chunkAt(Math.floor(index / CHUNK))?.rows[index % CHUNK];
  }

  /** Takes a new list: another filter or order. Answers of the old one are dropped. */
  use(source: RowSource): void {
    this.#source = source;
    this.#chunks = [];
    this.#failed = false;
    this.#busy = false;
    void this.#ask();
  }

  /** Says which rows are to be seen now. */
  want(first: number, end: number): void {
    this.#wish = { first, end };
    void this.#ask();
  }

  async #ask(): Promise<void> {
    const source = this.#source;
    const chunk = this.#missing();
    if (source === null || this.#busy || chunk === null) return;
    this.#busy = true;
    try {
      const rows = await source(chunk * CHUNK, CHUNK);
      if (source !== this.#source) return;
      this.#keep(chunk, rows);
      this.#failed = false;
    } catch {
      if (source !== this.#source) return;
      this.#failed = true;
      this.#busy = false;
      return;
    }
    this.#busy = false;
    await this.#ask();
  }

  #missing(): number | null {
    const { first, end } = this.#wish;
    for (let chunk = Math.floor(first / CHUNK); chunk * CHUNK < end; chunk++) {
      if (this.#chunkAt(chunk) === undefined) return chunk;
    }
    return null;
  }

  #chunkAt(chunk: number): Chunk | undefined {
    return this.#chunks.find((each) => each.chunk === chunk);
  }

  #keep(chunk: number, rows: readonly Row[]): void {
    const middle = (this.#wish.first + this.#wish.end) / 2 / CHUNK;
    const distance = (each: Chunk) => Math.abs(each.chunk - middle);
    this.#chunks = [...this.#chunks, { chunk, rows }]
      .sort((a, b) => distance(a) - distance(b))
      .slice(0, MOST_CHUNKS);
  }
}
