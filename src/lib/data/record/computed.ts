/** A value that Gaugebook computes for a record, beside the fields that were read. */
export interface ComputedDefinition {
  readonly name: string;
  readonly label: string;
  readonly kind: 'number' | 'text';
  /** '' where it has none. */
  readonly unit: string;
  /** Column name in exports. */
  readonly exportName: string;
  /** Places it is rounded to in exports, halves away from zero. */
  readonly decimals: number;
  /** Places on screen. */
  readonly shownDecimals: number;
  readonly help: string;
}

const text = { kind: 'text', unit: '', decimals: 0, shownDecimals: 0 } as const;
const mass = { kind: 'number', unit: 'kg', decimals: 3, shownDecimals: 0 } as const;
const percent = { kind: 'number', unit: '%', decimals: 4, shownDecimals: 2 } as const;

/** Computed columns in the order of exports, which is part of the export format. */
export const computedFields = [
  {
    ...text,
    name: 'refuelling',
    label: 'Refuelling',
    exportName: 'refuelling',
    help: 'Address of the ticket that stands for the refuelling; tickets of one refuelling share it.'
  },
  {
    ...text,
    name: 'densityCase',
    label: 'Density case',
    exportName: 'density_case',
    help: 'Which density multiplied which volume.'
  },
  {
    name: 'density15',
    kind: 'number',
    label: 'Density at 15 °C',
    unit: 'kg/m³',
    exportName: 'density_15c_kg_m3',
    decimals: 4,
    shownDecimals: 1,
    help: 'Density corrected to 15 °C by the tables in force.'
  },
  {
    ...mass,
    name: 'meteredMass',
    label: 'Metered mass',
    exportName: 'metered_mass_kg',
    help: 'Metered volume times density at the same temperature, of this ticket.'
  },
  {
    ...mass,
    name: 'gaugeUplift',
    label: 'Gauge uplift',
    exportName: 'gauge_uplift_kg',
    help: 'Departure fuel less arrival fuel, plus ground burn, plus defuelled.'
  },
  {
    ...mass,
    name: 'discrepancy',
    label: 'Discrepancy',
    exportName: 'discrepancy_kg',
    help: 'Gauge uplift less metered mass. Plus: gauge says more. Minus: meter says more.'
  },
  {
    ...percent,
    name: 'discrepancyPercent',
    label: 'Discrepancy of metered mass',
    exportName: 'discrepancy_percent_of_metered',
    help: 'Discrepancy in per cent of the metered mass of the refuelling.'
  },
  {
    ...percent,
    name: 'discrepancyPercentOfBase',
    label: 'Discrepancy of limit base',
    exportName: 'discrepancy_percent_of_limit_base',
    help: 'Discrepancy in per cent of what the limit is taken of.'
  },
  {
    ...text,
    name: 'limitBase',
    label: 'Limit base',
    exportName: 'limit_base',
    help: 'What the percentage of the limit is taken of.'
  },
  {
    ...mass,
    name: 'limit',
    label: 'Limit',
    exportName: 'limit_kg',
    help: 'Outside when the discrepancy is larger than this either way.'
  },
  {
    ...text,
    name: 'limitSet',
    label: 'Limit set',
    exportName: 'limit_set',
    help: 'The set of limits that held on that day.'
  },
  {
    name: 'limitRevision',
    kind: 'number',
    label: 'Limit revision',
    unit: '',
    exportName: 'limit_revision',
    decimals: 0,
    shownDecimals: 0,
    help: 'The revision of that set.'
  },
  {
    ...mass,
    name: 'expectedDeparture',
    label: 'Expected departure fuel',
    exportName: 'expected_departure_kg',
    help: 'Arrival fuel less ground burn, less defuelled, plus metered mass.'
  },
  {
    name: 'en',
    kind: 'number',
    label: 'En',
    unit: '',
    exportName: 'en',
    decimals: 4,
    shownDecimals: 2,
    help: 'Discrepancy over its own expanded uncertainty.'
  },
  {
    ...text,
    name: 'verdict',
    label: 'Verdict',
    exportName: 'verdict',
    help: 'Within limits, outside limits, or not judged.'
  },
  {
    ...text,
    name: 'quality',
    label: 'Quality',
    exportName: 'quality',
    help: 'Measured, estimated (what), or not reconcilable (what is missing).'
  },
  {
    ...text,
    name: 'marks',
    label: 'Marks',
    exportName: 'marks',
    help: 'Facts about the record worth a filter.'
  },
  {
    ...text,
    name: 'likelyCause',
    label: 'Would fit if',
    exportName: 'likely_cause',
    help: 'What one fault would explain the record. A proposal, never applied.'
  },
  {
    ...text,
    name: 'sourceFile',
    label: 'Source file',
    exportName: 'source_file',
    help: 'The file the record was read from.'
  },
  {
    name: 'sourceLine',
    kind: 'number',
    label: 'Source line',
    unit: '',
    exportName: 'source_line',
    decimals: 0,
    shownDecimals: 0,
    help: 'The physical line the record starts on.'
  },
  {
    ...text,
    name: 'sourceSha256',
    label: 'SHA-256 of the source',
    exportName: 'source_sha256',
    help: 'Fingerprint of the source file.'
  }
] as const satisfies readonly ComputedDefinition[];

export type ComputedName = (typeof computedFields)[number]['name'];

const byName = new Map<string, ComputedDefinition>(computedFields.map((field) => [field.name, field]));

/** The definition of a computed column; undefined where the name is none. */
export function computedNamed(name: string): ComputedDefinition | undefined {
  return byName.get(name);
}

/** The last column of an export, and the format it declares. */
export const exportFormatColumn = 'export_format';
export const exportFormat = 1;
