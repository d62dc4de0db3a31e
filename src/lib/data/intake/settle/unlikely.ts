import type { UnitCode } from '#lib/core/units/index.ts';
import type { FieldName } from '#lib/data/record/index.ts';
import type { ValueEvidence } from '../evidence/number-evidence.ts';

interface Unlikely {
  readonly fields: readonly FieldName[];
  readonly unit: UnitCode;
  readonly is: (values: ValueEvidence) => boolean;
}

/**
 * Sizes that the uplifts of transport aircraft do not have over a whole column (common practice, no source): the
 * unit is rather another, or a decimal mark was lost.
 */
const unlikely: readonly Unlikely[] = [
  { fields: ['volume', 'netVolume'], unit: 'litre', is: ({ greatest }) => greatest < 20 },
  { fields: ['volume', 'netVolume'], unit: 'cubicMetre', is: ({ least }) => least >= 400 },
  { fields: ['arrivalFuel', 'departureFuel'], unit: 'kilogram', is: ({ greatest }) => greatest < 100 },
  { fields: ['arrivalFuel', 'departureFuel'], unit: 'tonne', is: ({ least }) => least >= 400 },
  { fields: ['densityTemperature', 'fuelTemperature'], unit: 'celsius', is: ({ least }) => least > 45 }
];

/** True where no value of a column is of a size that its field has in this unit. Said, never put right unasked. */
export function isUnlikelySize(field: FieldName, unit: UnitCode, values: ValueEvidence): boolean {
  return (
    values.count > 0 &&
    unlikely.some((known) => known.unit === unit && known.fields.includes(field) && known.is(values))
  );
}

const gauges: ReadonlySet<FieldName> = new Set(['arrivalFuel', 'departureFuel']);

/**
 * True for a column of gauge readings with nothing but 0 in it: no aircraft comes and goes without fuel, so 0 stands
 * for a reading that was not taken, as some programs write it (common practice, no source).
 */
export function isNeverRead(field: FieldName, values: ValueEvidence): boolean {
  return gauges.has(field) && values.count > 0 && values.least === 0 && values.greatest === 0;
}
