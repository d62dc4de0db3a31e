import { describe, expect, it } from 'vitest';
import {
  computedFields,
  exportFormatColumn,
  exportName,
  familyKey,
  isFieldName,
  splitKey,
  upliftFields
} from '#lib/data/record/index.ts';

describe('the record list', () => {
  it('has every name once', () => {
    const names = upliftFields.map((field) => field.name);
    expect(new Set(names).size).toBe(names.length);
  });

  it('gives every column of an export a name of its own', () => {
    const names = [
      ...upliftFields.map((field) => exportName(field.name)),
      ...computedFields.map((field) => field.exportName),
      exportFormatColumn
    ];
    expect(new Set(names).size).toBe(names.length);
  });

  it.each([
    ['volume', 'volume_l'],
    ['densityCertificate15', 'density_certificate15_kg_m3'],
    ['time', 'time_utc'],
    ['tanksAfter:Left outer', 'tanks_after_left_outer_kg'],
    ['waterTest', 'water_test']
  ])('names the export column of %s %s', (key, name) => {
    expect(exportName(key)).toBe(name);
  });

  it('takes the key of a family apart', () => {
    expect(splitKey(familyKey('tanksBefore', 'left:1'))).toEqual({ name: 'tanksBefore', member: 'left:1' });
    expect(splitKey('tail')).toEqual({ name: 'tail', member: null });
  });

  it('knows no names of the prototype', () => {
    expect(isFieldName('constructor')).toBe(false);
    expect(() => splitKey('__proto__')).toThrow('need a field of the record list');
  });
});
