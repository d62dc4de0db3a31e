import { describe, expect, it } from 'vitest';
import {
  constantsText,
  type GradeCode,
  gradeCodes,
  gradeDensityAt15,
  gradeLimits,
  gradeNamed,
  isGradeCode
} from '#lib/core/density/index.ts';

describe('gradeDensityAt15', () => {
  it.each<[GradeCode, number, number, string]>([
    ['jetA1', 775, 840, 'AFQRJOS joint check list, issues 27 to 30'],
    ['jetA', 775, 840, 'ASTM D1655'],
    ['jp8', 775, 840, 'MIL-HDBK-1022A 2.3.2'],
    ['jp5', 788, 845, 'MIL-HDBK-1022A 2.3.2'],
    ['jetB', 751, 802, 'MIL-HDBK-1022A 2.3.2']
  ])('gives %s %d to %d kg/m3 (%s)', (grade, minimum, maximum) => {
    expect(gradeDensityAt15(grade, '1980')).toEqual({ minimumKgM3: minimum, maximumKgM3: maximum });
  });

  it('carries limits set at 20 C to 15 C by the tables (limits from memory, carried values computed)', () => {
    expect(gradeDensityAt15('ts1', '1980').minimumKgM3).toBeCloseTo(779.1, 1);
    expect(gradeDensityAt15('ts1', '1980').maximumKgM3).toBeNaN();
    expect(gradeDensityAt15('no3', '2004').minimumKgM3).toBeCloseTo(779.1, 1);
    expect(gradeDensityAt15('no3', '2004').maximumKgM3).toBeGreaterThan(833);
  });

  it('says of every limit where it comes from and how well it is known', () => {
    for (const code of gradeCodes) expect(gradeLimits[code].source).not.toBe('');
    expect(gradeCodes.filter((code) => gradeLimits[code].confidence === 'fromMemory')).toEqual([
      'ts1',
      'no3'
    ]);
  });
});

describe('gradeNamed', () => {
  it.each<[string, GradeCode]>([
    ['JET A-1', 'jetA1'],
    ['jet a1', 'jetA1'],
    ['JETA1', 'jetA1'],
    ['Jet A', 'jetA'],
    ['F34', 'jp8'],
    ['JP-5', 'jp5'],
    ['Jet B', 'jetB'],
    ['TS-1', 'ts1'],
    ['ТС-1', 'ts1'],
    ['No. 3 Jet Fuel', 'no3'],
    ['RP-3', 'no3']
  ])('reads "%s" as %s', (text, grade) => {
    expect(gradeNamed(text)).toBe(grade);
  });

  it.each(['', 'diesel', 'kerosene', 'avgas 100LL', 'toString'])('knows no grade named "%s"', (text) => {
    expect(gradeNamed(text)).toBeUndefined();
    expect(isGradeCode(text)).toBe(false);
  });

  it('reads every word of the table as the grade it stands under', () => {
    for (const code of gradeCodes) {
      for (const word of [code, gradeLimits[code].title.split(',')[0] ?? '', ...gradeLimits[code].words]) {
        expect([word, gradeNamed(word)]).toEqual([word, code]);
      }
    }
  });
});

describe('constantsText', () => {
  it('holds every constant a density depends on', () => {
    for (const constant of [
      '594.5418',
      '2680.3206',
      '330.301',
      '-0.148759',
      '60.0068749',
      '999.016',
      '0.000023'
    ]) {
      expect(constantsText).toContain(constant);
    }
  });
});
