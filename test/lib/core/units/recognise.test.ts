import { describe, expect, it } from 'vitest';
import { densityUnitsFitting, type UnitCode } from '#lib/core/units/index.ts';

describe('densityUnitsFitting (ranges: common practice, no source)', () => {
  it.each<[number, number, UnitCode[]]>([
    [775, 840, ['kilogramPerCubicMetre']],
    [0.785, 0.812, ['kilogramPerLitre', 'relativeDensity60F']],
    [6.4, 6.9, ['poundPerUsGallon']],
    [7.1, 7.3, ['poundPerUsGallon', 'poundPerImperialGallon']],
    [7.8, 8.3, ['poundPerImperialGallon']],
    [1.7, 1.8, ['poundPerLitre']],
    [38, 47, ['degreeApi']],
    [0.8, 800, []],
    [950, 990, []],
    [0, 0, []],
    [810, 790, []],
    [NaN, 800, []],
    [-800, 800, []]
  ])('takes a column from %d to %d for %j', (minimum, maximum, codes) => {
    expect(densityUnitsFitting(minimum, maximum)).toEqual(codes);
  });
});
