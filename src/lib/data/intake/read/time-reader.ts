import { NumberColumn, type ColumnSet } from '#lib/data/columns/index.ts';
import type { ReasonCode } from '#lib/data/words/index.ts';
import type { TimeReading } from '../layout.ts';
import { isMissingMarker } from '../numbers/shape.ts';
import {
  dayMs,
  dayNumber,
  dateOrders,
  dayOf,
  newTimeParts,
  scanTime,
  serialMs,
  type TimeParts,
  ZoneClock
} from '../times/index.ts';
import { longestBlock, type RecordBlock, type RecordView } from '../tokeniser.ts';
import type { CellReader } from './cell-reader.ts';

/** Reads a time field, in one column or in date and clock, into milliseconds UTC. */
export class TimeReader implements CellReader {
  readonly key: string;
  readonly cell: number;
  failedCell: number;
  reason: ReasonCode = 'badTime';
  /** The last instant in ms UTC, NaN where the cell is blank. */
  value = NaN;
  /** The same for the records of the block last read. */
  readonly values = new Float64Array(longestBlock);
  readonly #isUtc = new Uint8Array(longestBlock);
  readonly #reading: TimeReading;
  readonly #stationCell: number | null;
  readonly #stationZones: ReadonlyMap<string, string>;
  readonly #fixedStation: string;
  readonly #isChecked: boolean;
  readonly #clocks = new Map<string, ZoneClock>();
  readonly #parts: TimeParts = newTimeParts();
  #column = new NumberColumn();

  constructor(
    reading: TimeReading,
    stationCell: number | null,
    fixedStation: string,
    stationZones: ReadonlyMap<string, string>,
    isChecked: boolean
  ) {
    this.key = reading.key;
    this.cell = reading.column;
    this.failedCell = reading.column;
    this.#reading = reading;
    this.#stationCell = stationCell;
    this.#fixedStation = fixedStation;
    this.#stationZones = stationZones;
    this.#isChecked = isChecked;
  }

  bind(set: ColumnSet, rows: number): void {
    this.#column = new NumberColumn(rows);
    set.put(this.key, this.#column);
  }

  read(record: RecordView): boolean {
    this.value = NaN;
    if (!record.isEmpty(this.cell) && !this.#take(record)) return false;
    this.#column.push(this.value);
    return true;
  }

  readBlock(block: RecordBlock, odd: Uint8Array): void {
    const { values } = this;
    const isUtc = this.#isUtc;
    const { clockColumn, zone, yearFirstOpen } = this.#reading;
    const isSettled = clockColumn === null && !yearFirstOpen;
    block.instants(this.cell, values, isUtc);
    for (let i = 0; i < block.count; i++) {
      const isPlain = values[i] === values[i] && isSettled && (isUtc[i] === 1 || zone === 'utc');
      if (isPlain) continue;
      this.value = NaN;
      const record = block.record(i);
      if (!record.isEmpty(this.cell) && !this.#take(record)) odd[i] = 1;
      values[i] = this.value;
    }
  }

  pushBlock(_block: RecordBlock, from: number, to: number): void {
    this.#column.pushAll(this.values, from, to);
  }

  #take(record: RecordView): boolean {
    const text = record.text(this.cell);
    const parts = this.#parts;
    scanTime(text, parts);
    if (parts.form === 'bad' && isMissingMarker(text)) return true;
    const dayStart = this.#dayStart(parts);
    if (Number.isNaN(dayStart)) return false;
    if (parts.form === 'serial' && this.#reading.clockColumn === null)
      return this.#setLocal(dayStart, record);
    const { clockColumn } = this.#reading;
    if (clockColumn !== null) {
      if (parts.hasClock) return this.#fail('badTime');
      scanTime(record.text(clockColumn), parts);
      if (parts.form !== 'clock') return this.#fail('badTime', clockColumn);
    }
    const localMs = dayStart + parts.clockMs;
    if (!Number.isNaN(parts.offsetMinutes)) return this.#set(localMs - parts.offsetMinutes * 60_000);
    if (parts.hasClock) return this.#setLocal(localMs, record);
    return this.#reading.bareDate === 'refuse' ? this.#fail('noClock') : this.#set(localMs);
  }

  /** Midnight of the scanned date in ms, or for a day number its instant; NaN with the reason where there is none. */
  #dayStart(parts: TimeParts): number {
    const { order, proven, serial } = this.#reading;
    if (parts.form === 'bad' || parts.form === 'clock') {
      this.#fail('badTime');
      return NaN;
    }
    if (parts.form === 'serial') {
      const ms = serial === null ? NaN : serialMs(parts.serial, serial);
      if (Number.isNaN(ms)) this.#fail(serial === null ? 'otherReading' : 'badTime');
      return ms;
    }
    const day = dayOf(parts, order);
    if (parts.form === 'ymd' && this.#mayBeDayFirst(parts)) {
      this.#fail(parts.b > 12 ? 'otherReading' : 'dateEitherWay');
      return NaN;
    }
    const isOpen = !proven && parts.form !== 'ymd' && parts.a !== parts.b;
    if (!Number.isNaN(day) && !isOpen) return day * dayMs;
    const isOther = dateOrders.some((other) => !Number.isNaN(dayOf(parts, other)));
    this.#fail(isOther ? 'otherReading' : 'noSuchDate');
    return NaN;
  }

  /**
   * True for a date with the year first that would exist with the day before the month too, in a column with dates
   * that exist only so; and for one of these in a file whose own evidence did not settle the layout.
   */
  #mayBeDayFirst({ a: year, b: second, c: third }: TimeParts): boolean {
    const isOther =
      third >= 1 && third <= 12 && second !== third && !Number.isNaN(dayNumber(year, third, second));
    return isOther && (second > 12 ? !this.#isChecked : this.#reading.yearFirstOpen);
  }

  #setLocal(localMs: number, record: RecordView): boolean {
    const { zone, doubled } = this.#reading;
    if (zone === 'utc') return this.#set(localMs);
    if (zone === 'unasked') return this.#fail('otherReading');
    const clock = this.#clockOf(zone === 'station' ? this.#stationOf(record) : zone);
    const result = clock === null ? 'noZone' : clock.resolve(localMs);
    if (clock === null || result === 'noZone') return this.#fail('zoneUnknown');
    if (result === 'missing') return this.#fail('hourMissing');
    if (result === 'doubled' && doubled === 'refuse') return this.#fail('hourDoubled');
    return this.#set(doubled === 'later' ? clock.laterMs : clock.earlierMs);
  }

  #stationOf(record: RecordView): string {
    return this.#stationCell === null ? this.#fixedStation : record.text(this.#stationCell).trim();
  }

  /** The clock of `zone:Area/City`, or of a station by the register. */
  #clockOf(name: string): ZoneClock | null {
    let clock = this.#clocks.get(name) ?? null;
    if (clock !== null) return clock;
    const zone = name.startsWith('zone:') ? name.slice(5) : this.#stationZones.get(name);
    if (zone === undefined) return null;
    clock = new ZoneClock(zone);
    this.#clocks.set(name, clock);
    return clock;
  }

  #set(value: number): boolean {
    this.value = value;
    return true;
  }

  #fail(reason: ReasonCode, cell = this.cell): false {
    this.reason = reason;
    this.failedCell = cell;
    return false;
  }
}
