import type { CauseEvidence } from '#lib/core/causes/index.ts';
import { capacityKg, type Settings } from '#lib/data/settings/index.ts';
import type { Computed } from './computed.ts';
import type { SourceRows } from './rows.ts';

/**
 * Fills in what the signs of one record need and nothing that takes the records around it: cheap enough for every
 * record.
 */
export class SignReader {
  readonly #computed: Computed;
  readonly #observed: Float64Array;
  readonly #sampleC: Float64Array;
  readonly #meterC: Float64Array;
  readonly #start: Float64Array;
  readonly #stop: Float64Array;
  readonly #recorded: Float64Array;
  readonly #arrival: Float64Array;
  readonly #departure: Float64Array;
  readonly #defuelled: Float64Array;
  readonly #types: Uint32Array;
  readonly #capacityOfType: Float64Array;

  constructor(source: SourceRows, computed: Computed, settings: Settings) {
    const { columns } = source;
    this.#computed = computed;
    this.#observed = columns.valuesOf('densityObserved');
    this.#sampleC = columns.valuesOf('densityTemperature');
    this.#meterC = columns.valuesOf('fuelTemperature');
    this.#start = columns.valuesOf('meterStart');
    this.#stop = columns.valuesOf('meterStop');
    this.#recorded = columns.valuesOf('recordedUplift');
    this.#arrival = columns.valuesOf('arrivalFuel');
    this.#departure = columns.valuesOf('departureFuel');
    this.#defuelled = columns.valuesOf('defuelled');
    this.#types = columns.code('type').codes();
    const capacities = new Map(settings.types.map((type) => [type.code, capacityKg(type)]));
    this.#capacityOfType = Float64Array.from(
      columns.code('type').dictionary.texts(),
      (text) => capacities.get(text) ?? NaN
    );
  }

  /** The same fields for every record; the others stay as they are, so that nothing need be cleared a million times. */
  read(row: number, out: CauseEvidence): void {
    const computed = this.#computed;
    out.meteredMassKg = computed.refuellingMassKg[row] ?? NaN;
    out.gaugeUpliftKg = computed.gaugeUpliftKg[row] ?? NaN;
    // The uncertainty kept is the expanded one.
    out.ownUncertaintyKg = (computed.uncertaintyKg[row] ?? NaN) / 2;
    out.volumeL = computed.volumeL[row] ?? NaN;
    out.observedDensityKgM3 = this.#observed[row] ?? NaN;
    out.sampleTemperatureC = this.#sampleC[row] ?? NaN;
    out.meterTemperatureC = this.#meterC[row] ?? NaN;
    out.meterStartL = this.#start[row] ?? NaN;
    out.meterStopL = this.#stop[row] ?? NaN;
    out.recordedUpliftKg = this.#recorded[row] ?? NaN;
    out.arrivalFuelKg = this.#arrival[row] ?? NaN;
    out.departureFuelKg = this.#departure[row] ?? NaN;
    out.defuelledKg = this.#defuelled[row] ?? NaN;
    out.capacityKg = this.#capacityOfType[this.#types[row] ?? 0] ?? NaN;
    // Only the difference of the sides is kept.
    out.leftAfterKg = computed.imbalanceKg[row] ?? NaN;
    out.rightAfterKg = 0;
  }
}
