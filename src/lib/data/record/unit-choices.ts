import { unitCodes, unitOf, type UnitCode } from '#lib/core/units/index.ts';
import { fieldNamed, splitKey, type ColumnKey } from './uplift.ts';

/** A unit that a column of numbers can be read in, with the symbol it is shown by. */
export interface UnitChoice {
  readonly code: UnitCode;
  readonly symbol: string;
}

/** The units a column of a field can be read in; none for a field without a unit. */
export function unitChoices(key: ColumnKey): UnitChoice[] {
  const field = fieldNamed(splitKey(key).name);
  if (field.kind !== 'number') return [];
  return unitCodes(field.quantity).map((code) => ({ code, symbol: unitOf(code).symbol }));
}
