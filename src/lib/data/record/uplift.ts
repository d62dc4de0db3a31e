import { gaugeFields } from './gauge-fields.ts';
import type { FieldDefinition } from './definition.ts';
import { identityFields } from './identity-fields.ts';
import { meterFields } from './meter-fields.ts';
import { sampleFields } from './sample-fields.ts';

/**
 * The fields of an uplift, in the order of sheets and exports. Every type of a row derives from this list: an entry
 * added here is imported, shown, filtered and exported.
 */
export const upliftFields = [...identityFields, ...meterFields, ...gaugeFields, ...sampleFields] as const;

export type UpliftField = (typeof upliftFields)[number];
export type FieldName = UpliftField['name'];
type NamesOfKind<K extends UpliftField['kind']> = Extract<UpliftField, { kind: K }>['name'];
export type NumberFieldName = NamesOfKind<'number'>;
export type NameFieldName = NamesOfKind<'name'>;
export type TextFieldName = NamesOfKind<'text'>;
export type TimeFieldName = NamesOfKind<'time'>;
export type CheckFieldName = NamesOfKind<'check'>;
export type ChoiceFieldName = NamesOfKind<'choice'>;

const byName = new Map<string, FieldDefinition>(upliftFields.map((field) => [field.name, field]));

/** True where `name` is a field of the list. */
export function isFieldName(name: string): name is FieldName {
  return byName.has(name);
}

/** The definition of a field. Throws on a name that is not in the list. */
export function fieldNamed(name: FieldName): FieldDefinition {
  const field = byName.get(name);
  if (field === undefined) throw new TypeError(`field: ${name}, need a name of the record list`);
  return field;
}

/** Names of the fields of one kind, in list order. */
export function fieldsOfKind<K extends UpliftField['kind']>(kind: K): NamesOfKind<K>[] {
  return upliftFields.filter((field) => field.kind === kind).map((field) => field.name as NamesOfKind<K>);
}

/**
 * A column key: the field's name, or for a family (`tanksBefore`) the name, a colon and the member
 * (`tanksBefore:left`).
 */
export type ColumnKey = FieldName | `${FieldName}:${string}`;

/** The key of one member of a family. */
export function familyKey(name: FieldName, member: string): ColumnKey {
  return `${name}:${member}`;
}

/** A column key taken apart; throws on a key that names no field. */
export function splitKey(key: string): { name: FieldName; member: string | null } {
  const colon = key.indexOf(':');
  const name = colon < 0 ? key : key.slice(0, colon);
  if (!isFieldName(name)) throw new TypeError(`column key: ${key}, need a field of the record list`);
  return { name, member: colon < 0 ? null : key.slice(colon + 1) };
}

/** The name of a key's column in exports: the field in snake case, the member if any, the unit if any. */
export function exportName(key: string): string {
  const { name, member } = splitKey(key);
  const field = fieldNamed(name);
  const parts = [name.replace(/[A-Z]/g, (letter) => `_${letter.toLowerCase()}`)];
  if (member !== null) parts.push(member.toLowerCase().replace(/[^a-z0-9]+/g, '_'));
  if (field.kind === 'number') parts.push(field.exportUnit);
  if (field.kind === 'time') parts.push('utc');
  return parts.join('_');
}
