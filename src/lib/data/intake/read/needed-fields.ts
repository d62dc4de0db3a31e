import type { ReasonCode } from '#lib/data/words/index.ts';
import type { RecordView } from '../tokeniser.ts';
import type { NumberReader } from './number-reader.ts';
import type { Readers } from './readers.ts';
import { isTotalName } from './shape.ts';
import type { NameReader } from './text-readers.ts';
import type { TimeReader } from './time-reader.ts';

/** Fields of which one alone makes a quantity; the two meter readings make one together. */
const quantityKeys: readonly string[] = ['volume', 'netVolume', 'defuelled'];

/** Fields in whose place a total says what it is. */
const labelKeys: readonly string[] = ['ticket', 'station', 'tail'];

/** What no record is used without: time, station, tail and a quantity. Asked after a record was read. */
export class NeededFields {
  readonly #end: TimeReader | undefined;
  readonly #start: TimeReader | undefined;
  readonly #station: NameReader | undefined;
  readonly #tail: NameReader | undefined;
  readonly #labelled: readonly number[];
  readonly #hasFixedStation: boolean;
  readonly #hasFixedTail: boolean;
  readonly #quantities: readonly NumberReader[];
  readonly #meterStart: NumberReader | undefined;
  readonly #meterStop: NumberReader | undefined;

  constructor({ all, times, names, numbers, constants }: Readers) {
    this.#end = times.get('time');
    this.#start = times.get('startTime');
    this.#station = names.get('station');
    this.#tail = names.get('tail');
    this.#labelled = all
      .filter(({ key }) => labelKeys.includes(key))
      .map(({ cell }) => cell)
      .filter((cell) => cell >= 0);
    this.#hasFixedStation = constants.has('station');
    this.#hasFixedTail = constants.has('tail');
    this.#quantities = numbers.filter(({ key }) => quantityKeys.includes(key));
    this.#meterStart = numbers.find(({ key }) => key === 'meterStart');
    this.#meterStop = numbers.find(({ key }) => key === 'meterStop');
  }

  /** The first of time, station and tail that the record does not have. */
  missingIdentity(): ReasonCode | null {
    if (Number.isNaN(this.#end?.value ?? NaN)) return 'missingTime';
    if (this.#station?.wasMissing ?? !this.#hasFixedStation) return 'missingStation';
    return (this.#tail?.wasMissing ?? !this.#hasFixedTail) ? 'missingTail' : null;
  }

  /** True where the record stands under a word for a total, in the place of its ticket, station or tail. */
  namesTotal(record: RecordView): boolean {
    for (const cell of this.#labelled) if (isTotalName(record.text(cell))) return true;
    return false;
  }

  /** Why a record of a known time, station and tail is of no use all the same. */
  otherFault(): ReasonCode | null {
    if (!this.#hasQuantity()) return 'missingQuantity';
    return (this.#start?.value ?? NaN) > (this.#end?.value ?? NaN) ? 'endBeforeStart' : null;
  }

  /** True where a record that could not be read has no identity: the unreadable cell is its time, or it has no tail. */
  lacksIdentity(record: RecordView, failedCell: number | null): boolean {
    return failedCell === this.#end?.cell || (this.#tail?.isMissing(record) ?? false);
  }

  /** Marks the records of the block last read that lack something or end before they start. */
  markBlock(count: number, odd: Uint8Array): void {
    const ends = this.#end?.values;
    const starts = this.#start?.values;
    const stations = this.#station?.missing;
    const tails = this.#tail?.missing;
    const lacksName =
      (stations === undefined && !this.#hasFixedStation) || (tails === undefined && !this.#hasFixedTail);
    for (let i = 0; i < count; i++) {
      const end = ends?.[i] ?? NaN;
      const isSound =
        end === end &&
        !lacksName &&
        !(stations !== undefined && stations[i] === 1) &&
        !(tails !== undefined && tails[i] === 1) &&
        !((starts?.[i] ?? NaN) > end) &&
        this.#hasQuantityAt(i);
      if (!isSound) odd[i] = 1;
    }
  }

  #hasQuantityAt(index: number): boolean {
    for (const { values } of this.#quantities) if (values[index] === values[index]) return true;
    return !Number.isNaN((this.#meterStart?.values[index] ?? NaN) + (this.#meterStop?.values[index] ?? NaN));
  }

  #hasQuantity(): boolean {
    for (const reader of this.#quantities) if (reader.value === reader.value) return true;
    return !Number.isNaN((this.#meterStart?.value ?? NaN) + (this.#meterStop?.value ?? NaN));
  }
}
