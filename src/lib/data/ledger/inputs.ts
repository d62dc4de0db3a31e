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

/** A value, or where it is missing that of a row. */
function known(value: number, values: Float64Array, row: number): number {
  return Number.isNaN(value) ? (values[row] ?? NaN) : value;
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
    return this.#numbers.arrivalFuel[row] ?? NaN;
  }

  departureFuelKg(row: number): number {
    return this.#numbers.departureFuel[row] ?? NaN;
  }

  /** Minutes between the ends of two tickets. */
  minutesBetween(a: number, b: number): number {
    return Math.abs((this.#timeMs[a] ?? NaN) - (this.#timeMs[b] ?? NaN)) / 60_000;
  }

  /** The register's entry for a row's type. */
  typeOf(row: number): TypeEntry | undefined {
    return this.#types[this.#typeCodes[row] ?? 0];
  }

  readTicket(row: number, input: TicketInput): void {
    clearTicketInput(input);
    const numbers = this.#numbers;
    const vehicle = this.#vehicleCodes[row] ?? 0;
    input.grossVolumeL = numbers.volume[row] ?? NaN;
    input.netVolumeL = numbers.netVolume[row] ?? NaN;
    input.netBaseTemperatureC = numbers.netBaseTemperature[row] ?? NaN;
    input.meterStartL = numbers.meterStart[row] ?? NaN;
    input.meterStopL = numbers.meterStop[row] ?? NaN;
    input.meterRegisterL = this.#vehicleRegisterL[vehicle] ?? NaN;
    input.observedDensityKgM3 = numbers.densityObserved[row] ?? NaN;
    input.densityMethod = this.#densityMethod[row] ?? 0;
    input.sampleTemperatureC = numbers.densityTemperature[row] ?? NaN;
    input.meterTemperatureC = numbers.fuelTemperature[row] ?? NaN;
    input.ticketDensity15KgM3 = numbers.densityTicket15[row] ?? NaN;
    input.certificateDensity15KgM3 = numbers.densityCertificate15[row] ?? NaN;
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
    const numbers = this.#numbers;
    input.arrivalFuelKg = known(input.arrivalFuelKg, numbers.arrivalFuel, row);
    input.departureFuelKg = known(input.departureFuelKg, numbers.departureFuel, row);
    input.groundBurnKg = known(input.groundBurnKg, numbers.groundBurn, row);
    input.groundMinutes = known(input.groundMinutes, numbers.groundMinutes, row);
    input.defuelledKg = known(input.defuelledKg, numbers.defuelled, row);
    input.orderedKg = known(input.orderedKg, numbers.ordered, row);
    input.recordedDiscrepancyKg = known(input.recordedDiscrepancyKg, numbers.recordedDiscrepancy, row);
    input.stickFuelKg = known(input.stickFuelKg, numbers.stickReading, row);
    if (input.orderedBasis === 0) input.orderedBasis = this.#orderedBasis[row] ?? 0;
    // A recorded uplift belongs to its ticket: the refuelling's is their sum.
    const recorded = numbers.recordedUplift[row] ?? NaN;
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
