import { describe, expect, it } from 'vitest';
import {
  canonicalUnits,
  type Quantity,
  unitCodes,
  unitNamed,
  unitOf,
  unitsNamed,
  type UnitCode
} from '#lib/core/units/index.ts';

const recommendation20 = 'UN/CEFACT Recommendation 20';
const spelling = 'spelling met in files';

describe('unitNamed', () => {
  it.each<[Quantity, string, UnitCode, string]>([
    ['volume', 'LTR', 'litre', recommendation20],
    ['volume', 'GLL', 'usGallon', recommendation20],
    ['volume', 'GLI', 'imperialGallon', recommendation20],
    ['volume', 'MTQ', 'cubicMetre', recommendation20],
    ['volume', 'HLT', 'hectolitre', recommendation20],
    ['volume', 'BLL', 'usBarrel', recommendation20],
    ['mass', 'KGM', 'kilogram', recommendation20],
    ['mass', 'LBR', 'pound', recommendation20],
    ['mass', 'TNE', 'tonne', recommendation20],
    ['temperature', 'CEL', 'celsius', recommendation20],
    ['temperature', 'FAH', 'fahrenheit', recommendation20],
    ['density', 'KMQ', 'kilogramPerCubicMetre', recommendation20],
    ['density', 'B35', 'kilogramPerLitre', recommendation20],
    ['density', '23', 'kilogramPerLitre', recommendation20],
    ['density', 'GE', 'poundPerUsGallon', recommendation20],
    ['density', 'J13', 'degreeApi', recommendation20],
    ['pressure', 'KPA', 'kilopascal', recommendation20],
    ['pressure', 'BAR', 'bar', recommendation20],
    ['pressure', 'PS', 'poundPerSquareInch', recommendation20],
    ['conductivity', 'L42', 'picosiemensPerMetre', recommendation20],
    ['particulate', 'M1', 'milligramPerLitre', recommendation20],
    ['water', '59', 'partPerMillion', recommendation20],
    ['water', 'P1', 'percentByVolume', recommendation20],
    ['duration', 'MIN', 'minute', recommendation20],
    ['duration', 'HUR', 'hour', recommendation20],
    ['volume', 'US gal', 'usGallon', spelling],
    ['volume', 'USG', 'usGallon', spelling],
    ['volume', 'U.S. Gallons', 'usGallon', spelling],
    ['volume', 'gallons (US)', 'usGallon', spelling],
    ['volume', 'Imp. gal.', 'imperialGallon', spelling],
    ['volume', 'UK gallons', 'imperialGallon', spelling],
    ['volume', 'l', 'litre', spelling],
    ['volume', '[Litres]', 'litre', spelling],
    ['volume', 'Liter', 'litre', spelling],
    ['volume', 'm³', 'cubicMetre', spelling],
    ['volume', 'Cubic Metres', 'cubicMetre', spelling],
    ['mass', 'lbs', 'pound', spelling],
    ['mass', ' Kgs. ', 'kilogram', spelling],
    ['mass', 't', 'tonne', spelling],
    ['density', 'kg/m³', 'kilogramPerCubicMetre', spelling],
    ['density', 'kg m⁻³', 'kilogramPerCubicMetre', spelling],
    ['density', 'KG_PER_M3', 'kilogramPerCubicMetre', spelling],
    ['density', 'kilograms per cubic metre', 'kilogramPerCubicMetre', spelling],
    ['density', 'Kg/Ltr', 'kilogramPerLitre', spelling],
    ['density', 'g/cm3', 'kilogramPerLitre', spelling],
    ['density', 'LBS/USG', 'poundPerUsGallon', spelling],
    ['density', 'lb/L', 'poundPerLitre', spelling],
    ['density', 'deg. API', 'degreeApi', spelling],
    ['density', 'SG 60/60 °F', 'relativeDensity60F', spelling],
    ['temperature', '°C', 'celsius', spelling],
    ['temperature', 'ºC', 'celsius', spelling],
    ['temperature', '℃', 'celsius', spelling],
    ['temperature', 'Deg F', 'fahrenheit', spelling],
    ['conductivity', 'pS/m', 'picosiemensPerMetre', spelling],
    ['conductivity', 'CU', 'picosiemensPerMetre', spelling],
    ['water', 'PPM (v/v)', 'partPerMillion', spelling],
    ['water', 'µL/L', 'partPerMillion', spelling],
    ['pressure', 'psid', 'poundPerSquareInch', spelling]
  ])('reads, as a %s, "%s" as %s (%s)', (quantity, text, code) => {
    expect(unitNamed(quantity, text)).toBe(code);
  });

  it.each<[Quantity, string, UnitCode[]]>([
    ['volume', 'gal', ['usGallon', 'imperialGallon']],
    ['volume', 'Gallons', ['usGallon', 'imperialGallon']],
    ['density', 'lbs/gal', ['poundPerUsGallon', 'poundPerImperialGallon']],
    ['density', 'SG', ['kilogramPerLitre', 'relativeDensity60F']],
    ['density', 'Specific Gravity', ['kilogramPerLitre', 'relativeDensity60F']]
  ])('does not choose, as a %s, between the meanings of "%s"', (quantity, text, codes) => {
    expect(unitNamed(quantity, text)).toBeUndefined();
    expect(unitsNamed(quantity, text)).toEqual(codes);
  });

  it.each<[Quantity, string]>([
    ['volume', ''],
    ['volume', 'kg'],
    ['mass', 'tons'],
    ['density', 'kg'],
    ['volume', '__proto__'],
    ['volume', 'constructor'],
    ['temperature', '°']
  ])('knows no %s named "%s"', (quantity, text) => {
    expect(unitNamed(quantity, text)).toBeUndefined();
    expect(unitsNamed(quantity, text)).toEqual([]);
  });

  it('reads every word and symbol of the table as the unit it stands under, so no two units share a spelling', () => {
    for (const code of unitCodes()) {
      const { quantity, words, symbol } = unitOf(code);
      for (const word of [symbol, code, ...words]) {
        expect([word, unitNamed(quantity, word)]).toEqual([word, code]);
        expect([word, unitNamed(quantity, `  ${word.toUpperCase()} `)]).toEqual([word, code]);
      }
    }
  });

  it('lists the canonical unit of a quantity under it', () => {
    for (const code of Object.values(canonicalUnits))
      expect(unitCodes(unitOf(code).quantity)).toContain(code);
  });
});
