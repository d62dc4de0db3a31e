import {
  clearRefuellingInput,
  clearTicketInput,
  type RefuellingInput,
  type TicketInput
} from '#lib/core/reconciliation/index.ts';
import type { CodeColumn } from '#lib/data/columns/index.ts';
import type { NumberFieldName } from '#lib/data/record/index.ts';
import { capacityKg, type Settings, type TypeEntry } from '#lib/data/settings/index.ts';
import type { SourceRows } from './rows.ts';

/** A register entry per dictionary code, so that a row finds its own without a text. */
function byCode<E extends { readonly code: string }>(
  column: CodeColumn,
  entries: readonly E[]
): (E | undefined)[] {
  const named = new Map(entries.map((entry) => [entry.code, entry]));
  return column.dictionary.texts().map((text) => named.get(text));
}

/** A tank column: its values and, per aircraft type, which wing it counts to. */
interface TankColumn {
  readonly values: Float64Array;
  readonly sideOfType: readonly ('left' | 'right' | null)[];
}

function sideOf(tank: string, type: TypeEntry | undefined): 'left' | 'right' | null {
  const entry = type?.tanks.find(({ name }) => name.toLowerCase() === tank.toLowerCase());
  if (entry !== undefined) return entry.side;
  // Without a register the tank's own name says which wing it is in.
  if (tank.toLowerCase().startsWith('left')) return 'left';
  return tank.toLowerCase().startsWith('right') ? 'right' : null;
}

function tankColumns(source: SourceRows, types: readonly (TypeEntry | undefined)[]): TankColumn[] {
  const prefix = 'tanksAfter:';
  return source.columns
    .keys()
    .filter((key) => key.startsWith(prefix))
    .map((key) => ({
      values: source.columns.valuesOf(key),
      sideOfType: types.map((type) => sideOf(key.slice(prefix.length), type))
    }));
}

/** The source columns as the arithmetic takes them: one row at a time, into inputs that are reused. */
export class InputReader {
  readonly #numbers: Readonly<Record<NumberFieldName, Float64Array>>;
  readonly #timeMs: Float64Array;
  readonly #densityMethod: Uint32Array;
  readonly #orderedBasis: Uint32Array;
  readonly #typeCodes: Uint32Array;
  readonly #vehicleCodes: Uint32Array;
  readonly #types: readonly (TypeEntry | undefined)[];
  readonly #capacityKg: Float64Array;
  readonly #vehicleErrorPercent: Float64Array;
  readonly #vehicleRegisterL: Float64Array;
  readonly #tanks: readonly TankColumn[];

  constructor(source: SourceRows, settings: Settings) {
    const { columns } = source;
    const type = columns.code('type');
    const vehicle = columns.code('vehicle');
    const vehicles = byCode(vehicle, settings.vehicles);
    this.#types = byCode(type, settings.types);
    this.#typeCodes = type.codes();
    this.#vehicleCodes = vehicle.codes();
    this.#timeMs = columns.valuesOf('time');
    this.#densityMethod = columns.code('densityMethod').codes();
    this.#orderedBasis = columns.code('orderedBasis').codes();
    this.#capacityKg = Float64Array.from(this.#types, (entry) =>
      entry === undefined ? NaN : capacityKg(entry)
    );
    this.#vehicleErrorPercent = Float64Array.from(vehicles, (entry) => entry?.accuracyClassPercent ?? NaN);
    this.#vehicleRegisterL = Float64Array.from(vehicles, (entry) => {
      const digits = entry?.meterDigits ?? null;
      return digits === null ? NaN : 10 ** digits;
    });
    const values = (name: NumberFieldName) => columns.valuesOf(name);
    this.#numbers = {
      volume: values('volume'),
      netVolume: values('netVolume'),
      netBaseTemperature: values('netBaseTemperature'),
      meterStart: values('meterStart'),
      meterStop: values('meterStop'),
      densityObserved: values('densityObserved'),
      densityTemperature: values('densityTemperature'),
      fuelTemperature: values('fuelTemperature'),
      densityTicket15: values('densityTicket15'),
      densityCertificate15: values('densityCertificate15'),
      defuelled: values('defuelled'),
      arrivalFuel: values('arrivalFuel'),
      departureFuel: values('departureFuel'),
      groundBurn: values('groundBurn'),
      groundMinutes: values('groundMinutes'),
      ordered: values('ordered'),
      recordedUplift: values('recordedUplift'),
      recordedDiscrepancy: values('recordedDiscrepancy'),
      tanksBefore: new Float64Array(0),
      tanksAfter: new Float64Array(0),
      stickReading: values('stickReading'),
      conductivity: new Float64Array(0),
      conductivityTemperature: new Float64Array(0),
      particulate: new Float64Array(0)
    };
    this.#tanks = tankColumns(source, this.#types);
  }

  /** Gauge readings of a row, kg. */
  arrivalFuelKg(row: number): number {
    return this.#at('arrivalFuel', row);
  }

  departureFuelKg(row: number): number {
    return this.#at('departureFuel', row);
  }

  /** Minutes between the ends of two tickets. */
  minutesBetween(a: number, b: number): number {
    return Math.abs((this.#timeMs[a] ?? NaN) - (this.#timeMs[b] ?? NaN)) / 60_000;
  }

  /** The register's entry for a row's type. */
  typeOf(row: number): TypeEntry | undefined {
    return this.#types[this.#typeCodes[row] ?? 0];
  }

  #at(name: NumberFieldName, row: number): number {
    return this.#numbers[name][row] ?? NaN;
  }

  readTicket(row: number, input: TicketInput): void {
    clearTicketInput(input);
    const vehicle = this.#vehicleCodes[row] ?? 0;
    input.grossVolumeL = this.#at('volume', row);
    input.netVolumeL = this.#at('netVolume', row);
    input.netBaseTemperatureC = this.#at('netBaseTemperature', row);
    input.meterStartL = this.#at('meterStart', row);
    input.meterStopL = this.#at('meterStop', row);
    input.meterRegisterL = this.#vehicleRegisterL[vehicle] ?? NaN;
    input.observedDensityKgM3 = this.#at('densityObserved', row);
    input.densityMethod = this.#densityMethod[row] ?? 0;
    input.sampleTemperatureC = this.#at('densityTemperature', row);
    input.meterTemperatureC = this.#at('fuelTemperature', row);
    input.ticketDensity15KgM3 = this.#at('densityTicket15', row);
    input.certificateDensity15KgM3 = this.#at('densityCertificate15', row);
    input.meterErrorPercent = this.#vehicleErrorPercent[vehicle] ?? NaN;
  }

  /** Starts a refuelling; its tickets are then merged in, the one that stands for it first. */
  startRefuelling(row: number, input: RefuellingInput): void {
    clearRefuellingInput(input);
    const type = this.typeOf(row);
    input.gaugeCapacityKg = this.#capacityKg[this.#typeCodes[row] ?? 0] ?? NaN;
    input.gaugeStepKg = type?.gaugeStepKg ?? NaN;
    input.groundBurnRateKgPerMinute = type?.groundBurnKgPerMinute ?? NaN;
  }

  /**
   * Takes the aircraft's half from a ticket where it is not known yet. Gauge readings of one refuelling are equal or
   * on one ticket only, so the first that is there is the one.
   */
  mergeGauges(row: number, input: RefuellingInput): void {
    const first = (known: number, name: NumberFieldName) =>
      Number.isNaN(known) ? this.#at(name, row) : known;
    input.arrivalFuelKg = first(input.arrivalFuelKg, 'arrivalFuel');
    input.departureFuelKg = first(input.departureFuelKg, 'departureFuel');
    input.groundBurnKg = first(input.groundBurnKg, 'groundBurn');
    input.groundMinutes = first(input.groundMinutes, 'groundMinutes');
    input.defuelledKg = first(input.defuelledKg, 'defuelled');
    input.orderedKg = first(input.orderedKg, 'ordered');
    input.recordedDiscrepancyKg = first(input.recordedDiscrepancyKg, 'recordedDiscrepancy');
    input.stickFuelKg = first(input.stickFuelKg, 'stickReading');
    if (input.orderedBasis === 0) input.orderedBasis = this.#orderedBasis[row] ?? 0;
    // A recorded uplift belongs to its ticket: the refuelling's is their sum.
    const recorded = this.#at('recordedUplift', row);
    input.recordedUpliftKg = input.tickets <= 1 ? recorded : input.recordedUpliftKg + recorded;
    if (Number.isNaN(input.tanksAfterKg)) this.#mergeTanks(row, input);
  }

  #mergeTanks(row: number, input: RefuellingInput): void {
    const type = this.#typeCodes[row] ?? 0;
    let present = 0;
    let total = 0;
    let left = 0;
    let right = 0;
    for (const { values, sideOfType } of this.#tanks) {
      const mass = values[row] ?? NaN;
      if (Number.isNaN(mass)) continue;
      present++;
      total += mass;
      if (sideOfType[type] === 'left') left += mass;
      if (sideOfType[type] === 'right') right += mass;
    }
    const expected = this.#types[type]?.tanks.length ?? 0;
    // A tank left out would look like a split that does not add up.
    if (present === 0 || present < expected) return;
    input.tanksAfterKg = total;
    input.leftAfterKg = left;
    input.rightAfterKg = right;
  }
}
