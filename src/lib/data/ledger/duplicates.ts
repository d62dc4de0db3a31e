import type { Column } from '#lib/data/columns/index.ts';
import type { SourceRows } from './rows.ts';

/** Why a row is set aside; the index is the stored code, 0 where it is not. Appended to, never reordered. */
export const asideReasons = ['', 'sameRecord', 'sameTicket', 'sameUplift'] as const;
export type AsideReason = Exclude<(typeof asideReasons)[number], ''>;

const sameRecord = asideReasons.indexOf('sameRecord');
const sameTicket = asideReasons.indexOf('sameTicket');
const sameUplift = asideReasons.indexOf('sameUplift');

const dayMs = 86_400_000;

/** FNV-1a of 32-bit words: good enough to spread rows over a table that compares what it finds. */
function mix(hash: number, word: number): number {
  return Math.imul(hash ^ word, 16_777_619);
}

const double = new Float64Array(1);
const words = new Uint32Array(double.buffer);

function mixNumber(hash: number, value: number): number {
  double[0] = value;
  return mix(mix(hash, words[0] ?? 0), words[1] ?? 0);
}

/** Rows in an open-addressing table, by a hash and an equality of the caller's. */
class RowTable {
  /** Row plus one in each place, 0 where it is free, and beside it the hash: most rows differ in that already. */
  readonly #slots: Int32Array;
  readonly #hashes: Int32Array;
  readonly #mask: number;
  readonly #equal: (a: number, b: number) => boolean;

  constructor(rows: number, equal: (a: number, b: number) => boolean) {
    let size = 16;
    while (size < rows * 2) size *= 2;
    this.#slots = new Int32Array(size);
    this.#hashes = new Int32Array(size);
    this.#mask = size - 1;
    this.#equal = equal;
  }

  /** The row put in earlier that equals this one; where there is none, -1, and the row is put in. */
  findOrPut(row: number, hash: number): number {
    const slots = this.#slots;
    const hashes = this.#hashes;
    const mask = this.#mask;
    let slot = (hash ^ (hash >>> 15)) & mask;
    for (;;) {
      const found = (slots[slot] as number) - 1;
      if (found < 0) {
        slots[slot] = row + 1;
        hashes[slot] = hash;
        return -1;
      }
      if (hashes[slot] === hash && this.#equal(found, row)) return found;
      slot = (slot + 1) & mask;
    }
  }
}

/** The bytes of a column of texts, for reading without a view for each row. */
class Texts {
  readonly #buffer: Uint8Array;
  readonly #ends: Uint32Array;

  constructor({ buffer, ends }: { buffer: Uint8Array; ends: Uint32Array }) {
    this.#buffer = buffer;
    this.#ends = ends;
  }

  #start(row: number): number {
    return row === 0 ? 0 : (this.#ends[row - 1] as number);
  }

  isEmpty(row: number): boolean {
    return this.#start(row) === this.#ends[row];
  }

  mix(hash: number, row: number): number {
    const buffer = this.#buffer;
    const end = this.#ends[row] as number;
    let mixed = hash;
    for (let at = this.#start(row); at < end; at++) mixed = mix(mixed, buffer[at] as number);
    return mixed;
  }

  areSame(a: number, b: number): boolean {
    const buffer = this.#buffer;
    const from = this.#start(a);
    const length = (this.#ends[a] as number) - from;
    const other = this.#start(b);
    if ((this.#ends[b] as number) - other !== length) return false;
    for (let i = 0; i < length; i++) if (buffer[from + i] !== buffer[other + i]) return false;
    return true;
  }
}

function equalCells(column: Column, a: number, b: number): boolean {
  if (column.kind === 'number') return Object.is(column.at(a), column.at(b)) || column.at(a) === column.at(b);
  if (column.kind === 'code') return column.at(a) === column.at(b);
  return new Texts(column.parts()).areSame(a, b);
}

/** Finds records that are there twice. */
class Finder {
  readonly #times: Float64Array;
  readonly #volumes: Float64Array;
  readonly #stations: Uint32Array;
  readonly #tails: Uint32Array;
  readonly #vehicles: Uint32Array;
  readonly #tickets: Texts;
  readonly #content: readonly Column[];

  constructor(source: SourceRows) {
    const { columns } = source;
    this.#times = columns.valuesOf('time');
    this.#volumes = columns.valuesOf('volume');
    this.#stations = columns.code('station').codes();
    this.#tails = columns.code('tail').codes();
    this.#vehicles = columns.code('vehicle').codes();
    this.#tickets = new Texts(columns.text('ticket').parts());
    this.#content = columns.keys().flatMap((key) => {
      const column = columns.get(key);
      return key.startsWith('#') || column === undefined ? [] : [column];
    });
  }

  hasTicket(row: number): boolean {
    return !this.#tickets.isEmpty(row);
  }

  /** One ticket number of a station on one day. Numbers are used again in another year and by another station. */
  ticketHash(row: number): number {
    const day = Math.floor((this.#times[row] ?? NaN) / dayMs);
    return this.#tickets.mix(mix(mix(2_166_136_261, this.#stations[row] ?? 0), day), row);
  }

  sameTicket(a: number, b: number): boolean {
    return (
      this.#stations[a] === this.#stations[b] &&
      Math.floor((this.#times[a] ?? NaN) / dayMs) === Math.floor((this.#times[b] ?? NaN) / dayMs) &&
      this.#tickets.areSame(a, b)
    );
  }

  /** One volume into one tail by one vehicle at one instant. */
  upliftHash(row: number): number {
    const place = mix(mix(2_166_136_261, this.#stations[row] ?? 0), this.#tails[row] ?? 0);
    return mixNumber(
      mixNumber(mix(place, this.#vehicles[row] ?? 0), this.#times[row] ?? NaN),
      this.#volumes[row] ?? NaN
    );
  }

  sameUplift(a: number, b: number): boolean {
    return (
      this.#times[a] === this.#times[b] &&
      this.#volumes[a] === this.#volumes[b] &&
      this.#tails[a] === this.#tails[b] &&
      this.#stations[a] === this.#stations[b] &&
      this.#vehicles[a] === this.#vehicles[b]
    );
  }

  sameContent(a: number, b: number): boolean {
    return this.#content.every((column) => equalCells(column, a, b));
  }
}

/**
 * Rows that are set aside as suspected duplicates, by index in `asideReasons`. The keep rule: of records that are the
 * same the one that came first stays. The same ticket of a station on one day with other content, and the same
 * volume into one tail at one instant under another ticket, are set aside too: a person can take each of them back.
 */
export function findDuplicates(source: SourceRows, isRecovered: (row: number) => boolean): Uint8Array {
  const aside = new Uint8Array(source.rowCount);
  const finder = new Finder(source);
  const tickets = new RowTable(source.rowCount, (a, b) => finder.sameTicket(a, b));
  const uplifts = new RowTable(source.rowCount, (a, b) => finder.sameUplift(a, b));
  for (let row = 0; row < source.rowCount; row++) {
    if (isRecovered(row)) continue;
    const ticket = finder.hasTicket(row) ? tickets.findOrPut(row, finder.ticketHash(row)) : -1;
    if (ticket >= 0) {
      aside[row] = finder.sameContent(ticket, row) ? sameRecord : sameTicket;
      continue;
    }
    const uplift = uplifts.findOrPut(row, finder.upliftHash(row));
    if (uplift >= 0) aside[row] = finder.sameContent(uplift, row) ? sameRecord : sameUplift;
  }
  return aside;
}
