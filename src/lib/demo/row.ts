import type { CheckState } from '#lib/data/record/index.ts';

/** The layouts: three senders, and the plain one of benchmarks. */
export type LayoutName = 'A' | 'B' | 'C' | 'plain';

/** What was done to a row on purpose. */
export interface Planted {
  /** The kind of fault, in plain words joined by hyphens. */
  readonly kind: string;
  /** The field it was done to. */
  readonly field: string;
  /** Written over true value, where the fault is a proportion; else NaN. */
  readonly factor: number;
  readonly trueValue: string;
  readonly writtenValue: string;
  /** The planted story it belongs to, or 0. */
  readonly story: number;
}

/** One ticket as a sender would write it, in canonical units; NaN and empty text are missing. */
export interface DemoRow {
  layout: LayoutName;
  /** Number of the refuelling; tickets of one refuelling share it. */
  refuelling: number;
  ticket: string;
  startMinute: number;
  endMinute: number;
  /** Index of the station, and the code written. */
  station: number;
  stationCode: string;
  tail: string;
  typeIndex: number;
  flight: string;
  supplier: string;
  agent: string;
  /** Index of the vehicle; its code and meter are written. */
  vehicle: number;
  vehicleCode: string;
  meter: string;
  grade: string;
  batch: string;
  volumeL: number;
  meterStartL: number;
  meterStopL: number;
  densityObservedKgM3: number;
  densityTemperatureC: number;
  fuelTemperatureC: number;
  densityCertificate15KgM3: number;
  arrivalFuelKg: number;
  departureFuelKg: number;
  groundBurnKg: number;
  defuelledKg: number;
  /** Ordered as total on board. */
  orderedKg: number;
  waterTest: CheckState;
  visual: CheckState;
  conductivityPSM: number;
  remarks: string;
  /** What the sticking probe hides of each gauge reading, kg: the tank columns need it apart. */
  hiddenBeforeKg: number;
  hiddenAfterKg: number;
  /** Departure fuel of the tail's refuelling before, as it was read, kg. */
  previousDepartureKg: number;
  /** Cells written as they stand instead of the value, by field; null where there are none. */
  cells: Record<string, string> | null;
  /** Cells added to or, negative, left off the end of the line. */
  extraCells: number;
  /** Whether the row comes a second time. */
  isTwice: boolean;
  planted: Planted[];
}
