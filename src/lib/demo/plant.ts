import type { DemoRow } from './row.ts';

/** Where a fault was put, and which planted story it belongs to: 0 is an everyday slip. */
export interface Planting {
  readonly kind: string;
  readonly field: string;
  readonly story?: number;
  /** Written over true value, where the fault is a proportion. */
  readonly factor?: number;
}

/** Notes in a row's truth that a value was written instead of the true one. */
export function plant(
  row: Pick<DemoRow, 'planted'>,
  { kind, field, story = 0, factor = NaN }: Planting,
  trueValue: number | string,
  writtenValue: number | string
): void {
  row.planted.push({
    kind,
    field,
    factor,
    trueValue: String(trueValue),
    writtenValue: String(writtenValue),
    story
  });
}

/** The same for a number whose fault is a proportion. */
export function plantProportion(
  row: Pick<DemoRow, 'planted'>,
  planting: Planting,
  trueValue: number,
  writtenValue: number
): void {
  plant(row, { factor: writtenValue / trueValue, ...planting }, trueValue, writtenValue);
}
