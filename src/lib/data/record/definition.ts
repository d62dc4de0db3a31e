import type { Quantity } from '#lib/core/units/index.ts';

/** Languages whose header words are recognised on import. */
export const headerLanguages = ['en', 'fr', 'de', 'es', 'pt', 'it'] as const;
export type HeaderLanguage = (typeof headerLanguages)[number];

/**
 * Words a file may head a column with, per language, lower case and without punctuation or unit. Longer phrases
 * are stronger evidence than short ones; recognition itself lives in the intake.
 */
export type HeaderWords = { readonly en: readonly string[] } & {
  readonly [L in HeaderLanguage]?: readonly string[];
};

interface FieldBase {
  readonly name: string;
  /** Label on screen, without the unit. */
  readonly label: string;
  /** `yes`: no record is used without it. `quantity`: one of the fields so marked must be there. */
  readonly required: 'yes' | 'quantity' | 'no';
  readonly headerWords: HeaderWords;
  /** One sentence for the person who maps a column to it. */
  readonly help: string;
}

/** An instant in UTC, kept as milliseconds since 1970. */
export interface TimeField extends FieldBase {
  readonly kind: 'time';
}

/** A short name out of a limited set (station, tail, vehicle): kept as a dictionary code, grouped and filtered by. */
export interface NameField extends FieldBase {
  readonly kind: 'name';
}

/** Free or nearly unique text (ticket, remarks): kept as it was typed, leading zeros and all. */
export interface TextField extends FieldBase {
  readonly kind: 'text';
}

/** A number in the canonical unit of its quantity; NaN where it is missing. */
export interface NumberField extends FieldBase {
  readonly kind: 'number';
  readonly quantity: Quantity;
  /** The canonical unit as shown in headers. */
  readonly unit: string;
  /** The unit as part of an export column's name. */
  readonly exportUnit: string;
  /** One column per tank name of the type register, when true. */
  readonly family?: true;
}

/** The outcome of a sample check, one of `checkStates`. */
export interface CheckField extends FieldBase {
  readonly kind: 'check';
  /** Whose finding a failure is: the supplier's fuel, or water in the aircraft's own tanks. */
  readonly side: 'supplier' | 'aircraft';
}

/** One of a few meanings that the source states in its own words. */
export interface ChoiceField extends FieldBase {
  readonly kind: 'choice';
  readonly choices: readonly string[];
}

export type FieldDefinition = TimeField | NameField | TextField | NumberField | CheckField | ChoiceField;
export type FieldKind = FieldDefinition['kind'];

/** States of a sample check; the index is the stored code, so that 0 is a blank cell. */
export const checkStates = ['notRecorded', 'passed', 'failed', 'notDone', 'notRequired'] as const;
export type CheckState = (typeof checkStates)[number];
