import type { Neighbours } from './cause-evidence.ts';
import type { Computed } from './computed.ts';
import type { SourceRows } from './rows.ts';

const windowMs = 90 * 60_000;
/** Two discrepancies are about opposite when their sum is below this share of the larger. */
const oppositeShare = 0.1;

/** Looks around refuellings by station and time. */
export class Surroundings {
  readonly #times: Float64Array;
  readonly #stations: Uint32Array;
  readonly #tails: Uint32Array;
  readonly #computed: Computed;
  /** Wild refuellings and tickets without gauge readings by station; in order of time once somebody looks around. */
  readonly #byStation = new Map<number, number[]>();
  #isOrdered = true;

  constructor(source: SourceRows, computed: Computed) {
    this.#times = source.columns.valuesOf('time');
    this.#stations = source.columns.code('station').codes();
    this.#tails = source.columns.code('tail').codes();
    this.#computed = computed;
  }

  put(leader: number): void {
    const station = this.#stations[leader] ?? 0;
    const rows = this.#byStation.get(station);
    if (rows === undefined) this.#byStation.set(station, [leader]);
    else rows.push(leader);
    this.#isOrdered = false;
  }

  #order(): void {
    const times = this.#times;
    for (const rows of this.#byStation.values()) {
      rows.sort((a, b) => (times[a] ?? NaN) - (times[b] ?? NaN) || a - b);
    }
    this.#isOrdered = true;
  }

  /** The place of the first of a station's rows from a time on. */
  #placeFrom(rows: readonly number[], timeMs: number): number {
    let low = 0;
    let high = rows.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if ((this.#times[rows[middle] ?? -1] ?? NaN) < timeMs) low = middle + 1;
      else high = middle;
    }
    return low;
  }

  /** Of several neighbours the one whose record was read last. */
  around(leader: number): Neighbours {
    if (!this.#isOrdered) this.#order();
    const time = this.#times[leader] ?? NaN;
    const own = this.#computed.discrepancyKg[leader] ?? NaN;
    let opposite = -1;
    let stray = -1;
    const rows = this.#byStation.get(this.#stations[leader] ?? 0) ?? [];
    for (let place = this.#placeFrom(rows, time - windowMs); place < rows.length; place++) {
      const row = rows[place] ?? -1;
      if ((this.#times[row] ?? NaN) > time + windowMs) break;
      if (row === leader || this.#tails[row] === this.#tails[leader]) continue;
      const other = this.#computed.discrepancyKg[row] ?? NaN;
      if (Number.isNaN(other)) stray = Math.max(stray, row);
      else if (Math.abs(own + other) <= oppositeShare * Math.max(Math.abs(own), Math.abs(other)))
        opposite = Math.max(opposite, row);
    }
    return { opposite, stray };
  }
}
