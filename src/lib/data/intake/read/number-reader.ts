import { density15From60F } from '#lib/core/density/index.ts';
import {
  canonicalUnits,
  densityUnitsFitting,
  toCanonical,
  unitNamed,
  unitOf,
  type Quantity,
  type UnitCode
} from '#lib/core/units/index.ts';
import { NumberColumn, type ColumnSet } from '#lib/data/columns/index.ts';
import { fieldNamed, splitKey } from '#lib/data/record/index.ts';
import type { ReasonCode } from '#lib/data/words/index.ts';
import { foldWord } from '../evidence/word-evidence.ts';
import type { NumberReading } from '../layout.ts';
import { isMissingMarker, marksFitting, splitUnit } from '../numbers/shape.ts';
import { scanNumber } from '../tokenise/scan-number.ts';
import { cellLook, longestBlock, type NumberMarks, type RecordBlock, type RecordView } from '../tokeniser.ts';
import type { CellReader } from './cell-reader.ts';

/** What a source may state below zero: an order that asks for less than is on board, a defuelling as an uplift. */
const signedKeys: ReadonlySet<string> = new Set(['recordedDiscrepancy', 'recordedUplift', 'ordered']);

/** Values in canonical units that a field can have; others are a slip of unit, sign or column. */
function rangeOf(key: string, quantity: Quantity): readonly [number, number] {
  if (signedKeys.has(key)) return [-Infinity, Infinity];
  // Kerosene lies at 700 to 900 kg/m³ at any temperature met: 998 is water, 0.8, 6.7 or 45 are another unit.
  if (quantity === 'density') return [600, 950];
  if (quantity === 'temperature') return [-80, 100];
  return [0, Infinity];
}

/** Reads a column of numbers into canonical units. */
export class NumberReader implements CellReader {
  readonly key: string;
  readonly cell: number;
  failedCell: number;
  reason: ReasonCode = 'badNumber';
  /** The last value in canonical units and as the file has it; NaN where the cell is blank. */
  value = NaN;
  raw = NaN;
  /** The same for the records of the block last read. */
  readonly values = new Float64Array(longestBlock);
  readonly raws = new Float64Array(longestBlock);
  readonly #looks = new Uint8Array(longestBlock);
  readonly #reading: NumberReading;
  readonly #quantity: Quantity;
  readonly #marks: NumberMarks;
  readonly #otherMarks: NumberMarks;
  readonly #isCanonical: boolean;
  readonly #isAt15: boolean;
  readonly #least: number;
  readonly #greatest: number;
  readonly #unitWords: ReadonlyMap<string, UnitCode>;
  readonly #units = new Map<string, UnitCode | null>();
  #column = new NumberColumn();

  constructor(reading: NumberReading) {
    const field = fieldNamed(splitKey(reading.key).name);
    if (field.kind !== 'number') throw new TypeError(`reading: ${reading.key}, need a number field`);
    this.key = reading.key;
    this.cell = reading.column;
    this.failedCell = reading.column;
    this.#reading = reading;
    this.#quantity = field.quantity;
    this.#marks = reading.marks;
    this.#otherMarks = { decimal: reading.marks.decimal === '.' ? ',' : '.', group: null };
    this.#isCanonical = reading.unit === canonicalUnits[field.quantity];
    this.#isAt15 = reading.key === 'densityTicket15' || reading.key === 'densityCertificate15';
    [this.#least, this.#greatest] = rangeOf(reading.key, field.quantity);
    this.#unitWords = new Map(reading.unitWords);
  }

  bind(set: ColumnSet, rows: number): void {
    this.#column = new NumberColumn(rows);
    set.put(this.key, this.#column);
  }

  read(record: RecordView): boolean {
    this.raw = NaN;
    this.value = NaN;
    if (!this.#take(record)) return false;
    this.#column.push(this.value);
    return true;
  }

  readBlock(block: RecordBlock, odd: Uint8Array): void {
    const { values, raws } = this;
    const looks = this.#looks;
    const { unit, proven, sign, zeroIsMissing } = this.#reading;
    // Where no mark was ever met, a cell is plain only if either decimal mark reads it.
    const plainTo = unit === null ? cellLook.empty : proven ? cellLook.marked : cellLook.digits;
    const isAsItIs = this.#isCanonical && sign === 1 && !zeroIsMissing;
    const least = this.#least;
    const greatest = this.#greatest;
    block.numbers(this.cell, this.#marks.decimal, raws, looks);
    for (let i = 0; i < block.count; i++) {
      const raw = raws[i] as number;
      const look = looks[i] as number;
      if (look === cellLook.empty || (isAsItIs && look <= plainTo && raw >= least && raw <= greatest)) {
        values[i] = raw;
      } else this.#readOne(block, i, look <= plainTo ? raw : null, odd);
    }
  }

  /** Reads one record of a block by its number, or where that is not plain by its cell. */
  #readOne(block: RecordBlock, index: number, plain: number | null, odd: Uint8Array): void {
    this.raw = NaN;
    this.value = NaN;
    const { unit } = this.#reading;
    const isRead =
      plain === null || unit === null
        ? this.#take(block.record(index))
        : this.#set(plain, this.#isCanonical ? plain : this.#canonical(unit, plain));
    if (!isRead) odd[index] = 1;
    this.values[index] = this.value;
    this.raws[index] = this.raw;
  }

  pushBlock(_block: RecordBlock, from: number, to: number): void {
    this.#column.pushAll(this.values, from, to);
  }

  /** The number of a cell as the file has it, whatever else is wrong with the record; NaN where there is none. */
  rawOf(record: RecordView): number {
    return record.isEmpty(this.cell) ? NaN : this.#numberIn(record.text(this.cell));
  }

  #take(record: RecordView): boolean {
    const { cell } = this;
    const raw = record.number(cell, this.#marks);
    if (raw !== raw && record.isEmpty(cell)) return true;
    // Where no mark was ever met, a cell is plain only if the other decimal mark reads it alike.
    const isPlain = raw === raw && (this.#reading.proven || record.number(cell, this.#otherMarks) === raw);
    if (!isPlain || this.#reading.unit === null) return this.#takeText(record);
    return this.#set(raw, this.#isCanonical ? raw : this.#canonical(this.#reading.unit, raw));
  }

  #set(raw: number, value: number): boolean {
    if (raw === 0 && this.#reading.zeroIsMissing) return true;
    if (!(value >= this.#least && value <= this.#greatest)) {
      this.failedCell = this.cell;
      this.reason = value < 0 && this.#least === 0 ? 'negative' : this.#rangeReason(raw);
      return false;
    }
    this.raw = raw;
    this.value = this.#reading.sign === 1 ? value : -value;
    return true;
  }

  #rangeReason(raw: number): ReasonCode {
    const isOther = this.#reading.unitBySize && this.#quantity === 'density';
    return isOther && densityUnitsFitting(raw, raw).length > 0 ? 'otherReading' : 'outOfRange';
  }

  /** Cells that are more than a number in the marks of the column: units, other group marks, words. */
  #takeText(record: RecordView): boolean {
    const text = record.text(this.cell);
    this.failedCell = this.cell;
    if (isMissingMarker(text)) return true;
    const own = this.#numberIn(text);
    if (!Number.isNaN(own)) return this.#setWithUnit(own, this.#rowUnit(record));
    if (this.reason === 'otherReading') return false;
    const split = splitUnit(text);
    // A unit has no digit but a power at its end: 1O50 and 1e5 are slips of the number.
    if (split === null || /\d./.test(split.unit) || /[^23\D]/.test(split.unit)) return false;
    const value = this.#numberIn(split.number);
    return !Number.isNaN(value) && this.#setWithUnit(value, this.#unitOf(split.unit));
  }

  /** The number of a text in the column's decimal mark; NaN with the reason where there is none. */
  #numberIn(text: string): number {
    const marks = marksFitting(text, this.#marks.decimal);
    const other = marksFitting(text, this.#otherMarks.decimal);
    this.reason = other === null ? 'badNumber' : 'otherReading';
    if (marks === null) return NaN;
    const value = scanNumber(text, marks);
    if (this.#reading.proven || (other !== null && scanNumber(text, other) === value)) return value;
    this.reason = 'otherReading';
    return NaN;
  }

  #setWithUnit(value: number, unit: UnitCode | null): boolean {
    if (unit === null) return false;
    return this.#set(value, this.#canonical(unit, value));
  }

  /** Scales that refer to 60 °F give the density there; a field at 15 °C needs it brought to 15 °C. */
  #canonical(unit: UnitCode, raw: number): number {
    const value = toCanonical(unit, raw);
    return this.#isAt15 && unitOf(unit).at60F === true ? density15From60F(value, '1980') : value;
  }

  /** The unit of a cell that names none itself. */
  #rowUnit(record: RecordView): UnitCode | null {
    const { unit, unitColumn } = this.#reading;
    if (unit !== null) return unit;
    this.reason = 'unitMissing';
    if (unitColumn === null) return null;
    this.failedCell = unitColumn;
    return record.isEmpty(unitColumn) ? null : this.#unitOf(record.text(unitColumn));
  }

  #unitOf(word: string): UnitCode | null {
    const known = this.#units.get(word);
    const unit = known === undefined ? this.#lookUp(word) : known;
    if (unit === null) this.reason = 'unitUnknown';
    return unit;
  }

  #lookUp(word: string): UnitCode | null {
    const unit = this.#unitWords.get(foldWord(word)) ?? unitNamed(this.#quantity, word) ?? null;
    if (this.#units.size < 1000) this.#units.set(word, unit);
    return unit;
  }
}
