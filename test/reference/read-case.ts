import { readFileSync } from 'node:fs';

/** Values of a case by name: numbers, lists, groups. */
export type Fields = Record<string, unknown>;

export interface ReferenceCase {
  readonly id: string;
  readonly method: string;
  readonly source: string;
  readonly input: Fields;
  readonly expected: Fields;
  readonly toleranceRel: number;
  readonly published?: Fields;
}

export function isFields(value: unknown): value is Fields {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

function isCase(value: unknown): value is ReferenceCase {
  return (
    isFields(value) &&
    typeof value['id'] === 'string' &&
    typeof value['method'] === 'string' &&
    isFields(value['input']) &&
    isFields(value['expected']) &&
    typeof value['toleranceRel'] === 'number'
  );
}

export function readCases(path: URL): ReferenceCase[] {
  const read: unknown = JSON.parse(readFileSync(path, 'utf8'));
  const cases = isFields(read) && Array.isArray(read['cases']) ? read['cases'] : [];
  return cases.map((entry: unknown) => {
    if (!isCase(entry))
      throw new Error(`case: ${JSON.stringify(entry).slice(0, 80)}, need id, method, input, expected`);
    return entry;
  });
}

/** One number of a case. */
export function numberOf(fields: Fields, name: string): number {
  const value = fields[name];
  if (typeof value !== 'number') throw new Error(`${name}: ${String(value)}, need a number`);
  return value;
}

/** One number, or the default where the case does not give it. */
export function numberOr(fields: Fields, name: string, otherwise: number): number {
  return name in fields ? numberOf(fields, name) : otherwise;
}

function toNumber(value: unknown): number {
  if (value === null) return NaN;
  if (typeof value !== 'number') throw new Error(`value: ${JSON.stringify(value)}, need a number or null`);
  return value;
}

/** A list of numbers; null is NaN, and a single number is a list of one. */
export function numbersOf(fields: Fields, name: string): number[] {
  const value = fields[name];
  return Array.isArray(value) ? value.map(toNumber) : [toNumber(value)];
}

/** All numbers inside a value, in order of appearance. */
export function flatNumbers(value: unknown): number[] {
  if (Array.isArray(value)) return value.flatMap(flatNumbers);
  if (isFields(value)) return Object.values(value).flatMap(flatNumbers);
  return [toNumber(value)];
}

/** A list of lists of numbers. */
export function groupsOf(fields: Fields, name: string): number[][] {
  const value = fields[name];
  if (!Array.isArray(value)) throw new Error(`${name}: need a list of groups`);
  return value.map(flatNumbers);
}
