import { conditionUnits } from './condition-units.ts';
import { densityUnits } from './density-units.ts';
import { massUnits } from './mass-units.ts';
import { sampleUnits } from './sample-units.ts';
import type { Quantity, Unit } from './unit.ts';
import { volumeUnits } from './volume-units.ts';

/** Every unit a file may name, by code. Recommendation 20 codes were read from the UNECE vocabulary. */
export const units = {
  ...volumeUnits,
  ...massUnits,
  ...densityUnits,
  ...conditionUnits,
  ...sampleUnits
} as const;

export type UnitCode = keyof typeof units;

const codes: readonly string[] = Object.keys(units);

/** Whether a text is the code of a unit in the table, for values that come back from storage or an export. */
export const isUnitCode = (text: string): text is UnitCode => Object.hasOwn(units, text);

/** The row of the table for a unit, typed by its common shape. */
export const unitOf = (code: UnitCode): Unit => units[code];

/** Every unit code in table order, or those of one quantity. */
export const unitCodes = (quantity?: Quantity): UnitCode[] =>
  codes.filter(isUnitCode).filter((code) => quantity === undefined || units[code].quantity === quantity);
