import { ByteSource } from '../bytes/byte-source.ts';
import type { Along, Dialect, FormFault, RecordVisitor, Tokeniser, TokeniserReport } from '../tokeniser.ts';
import { ByteBlock, mostBlockCells } from './byte-block.ts';
import { ByteRecord } from './byte-record.ts';
import { ByteScan, longestRecord } from './byte-scan.ts';
import { readByPapa } from './papa.ts';
import { ReadingState } from './reading-state.ts';
import { narrowestGuarded } from './swallowed-rows.ts';

const defaultChunkBytes = 1 << 20;

const noFaults: readonly FormFault[] = [];

/**
 * Reads records straight from bytes, UTF-8 or Windows-1252. What it does not understand it hands to papaparse from
 * the last good record on, and takes over again at the first place where a record and a piece of the file end.
 */
export class ByteTokeniser implements Tokeniser {
  readonly #chunkBytes: number;

  constructor(chunkBytes = defaultChunkBytes) {
    this.#chunkBytes = chunkBytes;
  }

  async read(
    source: Blob,
    dialect: Dialect,
    visit: RecordVisitor,
    along: Along = {}
  ): Promise<TokeniserReport> {
    const { encoding } = dialect;
    if (encoding !== 'utf-8' && encoding !== 'windows-1252') {
      throw new RangeError(`encoding: ${encoding}, need utf-8 or windows-1252`);
    }
    const state = new ReadingState(dialect, visit, along);
    const run = new ByteRun(source, dialect.delimiter, encoding, state, this.#chunkBytes);
    while (!(await run.read())) {
      await readByPapa(source, dialect, state, this.#chunkBytes, true);
    }
    return state.report();
  }
}

class ByteRun {
  readonly #source: Blob;
  readonly #scan: ByteScan;
  readonly #ahead: ByteScan;
  readonly #record: ByteRecord;
  readonly #block: ByteBlock;
  readonly #state: ReadingState;
  /** Two bytes longer than what is read into it, so that a NUL follows the last byte. */
  #buffer: ArrayBuffer;

  constructor(
    source: Blob,
    delimiter: string,
    encoding: 'utf-8' | 'windows-1252',
    state: ReadingState,
    chunkBytes: number
  ) {
    this.#source = source;
    this.#scan = new ByteScan(delimiter, encoding, mostBlockCells);
    this.#ahead = new ByteScan(delimiter, encoding);
    this.#record = new ByteRecord(this.#scan, encoding);
    this.#block = new ByteBlock(this.#scan, this.#record, encoding);
    this.#state = state;
    this.#buffer = new ArrayBuffer(chunkBytes + longestRecord + 2);
  }

  /** Reads on from `state.bytes`; false where it met what it does not understand and `state.bytes` stands before it. */
  async read(): Promise<boolean> {
    const { size } = this.#source;
    const bytes = new ByteSource(this.#source, this.#state.bytes, this.#state.onFetched);
    let kept = 0;
    while (!this.#state.stopped && this.#state.bytes < size) {
      const room = this.#buffer.byteLength - longestRecord - 2;
      const filled = await bytes.fill(this.#buffer, kept, Math.min(kept + room, this.#buffer.byteLength - 2));
      this.#buffer = filled.buffer;
      const start = this.#state.bytes;
      const { understood, at } = this.#records(filled.end, start, bytes.position === size);
      if (!(await this.#state.reached(start + at))) return true;
      if (!understood) return false;
      kept = filled.end - at;
      new Uint8Array(this.#buffer).copyWithin(0, at, filled.end);
    }
    return true;
  }

  /** Gives out the records in the first `end` bytes of the buffer, which start at byte `base` of the file. */
  #records(end: number, base: number, last: boolean): { understood: boolean; at: number } {
    const scan = this.#scan;
    const record = this.#record;
    const state = this.#state;
    const bytes = new Uint8Array(this.#buffer);
    bytes[end] = 0;
    bytes[end + 1] = 0;
    scan.bytes = bytes;
    const block = this.#block;
    block.begin(state.line, base);
    let at = 0;
    while (at < end && !state.stopped) {
      const result = scan.scan(at, end, last, state.usual.value);
      if (result === 'more' && !last && end - at <= longestRecord) break;
      const isUnderstood = result === 'record' && !(scan.lines > 1 && this.#mayHoldRow(end, last));
      if (!isUnderstood) return this.#giveBlock(base, at, false);
      if (state.takesBlocks && scan.lines === 1 && scan.count === state.usual.value) {
        state.usual.add(scan.count);
        const isFull = !block.keep(at);
        at = scan.end;
        if (isFull) ({ at } = this.#giveBlock(base, at, true));
        continue;
      }
      if (block.count > 0) {
        // Asked again once the records before it are out, and the block is empty.
        ({ at } = this.#giveBlock(base, at, true));
        continue;
      }
      record.base = 0;
      record.cellCount = scan.count;
      record.line = state.line;
      record.lines = scan.lines;
      record.byteStart = base + at;
      record.byteEnd = base + scan.end;
      state.usual.add(scan.count);
      state.give(record, noFaults);
      at = scan.end;
      block.begin(state.line, base);
    }
    return this.#giveBlock(base, at, true);
  }

  /** Gives out the block at hand, which ends at `at`, and begins the next; tells up to where records were taken. */
  #giveBlock(base: number, at: number, understood: boolean): { understood: boolean; at: number } {
    const block = this.#block;
    const taken = block.count === 0 ? 0 : this.#state.giveBlock(block);
    const isWhole = taken === block.count;
    const reached = isWhole ? at : block.placeAfter(taken);
    block.begin(this.#state.line, base);
    return { understood: understood || !isWhole, at: reached };
  }

  /** Whether the last line of a cell of several lines may be a row: it reads as one, or the record does not. */
  #mayHoldRow(end: number, last: boolean): boolean {
    const scan = this.#scan;
    const usual = this.#state.usual.value;
    if (usual < narrowestGuarded) return false;
    if (scan.count !== usual) return true;
    this.#ahead.bytes = scan.bytes;
    for (let cell = 0; cell < scan.count; cell++) {
      const line = scan.lastLineOf(cell);
      if (line < 0) continue;
      const isRead = this.#ahead.scan(line, end, last, usual) === 'record';
      if (!isRead || (this.#ahead.count === usual && this.#ahead.lines === 1)) return true;
    }
    return false;
  }
}
