import {
  degreeApiNumerator,
  degreeApiOffset,
  kilogramsPerPound,
  kilopascalsPerPsi,
  litresPerImperialGallon,
  litresPerUsBarrel,
  litresPerUsGallon,
  waterDensity60FKgM3
} from './factors.ts';

/** What is measured, each with the one unit in which the program computes. */
export const canonicalUnits = {
  volume: 'litre',
  mass: 'kilogram',
  density: 'kilogramPerCubicMetre',
  temperature: 'celsius',
  conductivity: 'picosiemensPerMetre',
  duration: 'minute',
  particulate: 'milligramPerLitre',
  water: 'partPerMillion',
  pressure: 'kilopascal'
} as const;

export type Quantity = keyof typeof canonicalUnits;

/**
 * How a unit becomes the canonical one. `linear`: canonical = (x - zero) * times / per, so that every number in
 * the table is one that a standard prints. `reciprocal`: canonical = times / (x + offset), the API scale.
 */
export type Scale =
  | { readonly kind: 'linear'; readonly zero: number; readonly times: number; readonly per: number }
  | { readonly kind: 'reciprocal'; readonly times: number; readonly offset: number };

export interface Unit {
  readonly quantity: Quantity;
  readonly symbol: string;
  /** Spellings files use, UN/CEFACT Recommendation 20 code first; case, spaces and punctuation do not matter. */
  readonly words: readonly string[];
  readonly scale: Scale;
  /** A density at 60 F, whatever the fuel's temperature was: `core/density` brings it to 15 C. */
  readonly at60F?: true;
  /** Range in which a jet fuel is written in this unit (trade practice), for recognising density by size. */
  readonly jetFuel?: readonly [minimum: number, maximum: number];
  readonly source: string;
}

const linear = (times: number, per = 1, zero = 0): Scale => ({ kind: 'linear', zero, times, per });

const definition = 'SI Brochure, 9th edition';
const handbook44 = 'NIST Handbook 44 Appendix C';

/**
 * Every unit a file may name, by code. Recommendation 20 codes were read from the UNECE vocabulary; `CU`,
 * "conductivity unit", is the trade's name for pS/m.
 */
export const units = {
  litre: {
    quantity: 'volume',
    symbol: 'L',
    words: [
      ...['LTR', 'L', 'lt', 'lit', 'lts', 'ltrs', 'litre', 'litres', 'liter', 'liters', 'dm3'],
      ...['litro', 'litros', 'litri', 'л', 'литр', 'литров']
    ],
    scale: linear(1),
    source: definition
  },
  cubicMetre: {
    quantity: 'volume',
    symbol: 'm³',
    words: ['MTQ', 'm3', 'cbm', 'kL', 'kilolitre', 'kilolitres', 'kiloliter', 'kiloliters'].concat(
      ['cubic metre', 'cubic metres', 'cubic meter', 'cubic meters', 'cu m'],
      ['м3']
    ),
    scale: linear(1000),
    source: definition
  },
  hectolitre: {
    quantity: 'volume',
    symbol: 'hL',
    words: ['HLT', 'hL', 'hectolitre', 'hectolitres', 'hectoliter', 'hectoliters'],
    scale: linear(100),
    source: definition
  },
  usGallon: {
    quantity: 'volume',
    symbol: 'US gal',
    words: [
      ...[
        'GLL',
        'USG',
        'US gal',
        'US gals',
        'US gallon',
        'US gallons',
        'gal US',
        'gals US',
        'gallon US',
        'gallons US'
      ],
      ...['USA gal', 'USA gallons', 'American gallons']
    ],
    scale: linear(litresPerUsGallon),
    source: handbook44
  },
  imperialGallon: {
    quantity: 'volume',
    symbol: 'imp gal',
    words: [
      ...[
        'GLI',
        'IG',
        'IMG',
        'imp gal',
        'imp gals',
        'imp gallon',
        'imp gallons',
        'imperial gallon',
        'imperial gallons'
      ],
      ...[
        'gal imp',
        'gals imp',
        'gallons imp',
        'gallons imperial',
        'UK gal',
        'UK gals',
        'UK gallon',
        'UK gallons'
      ],
      ...['UKG', 'gal UK', 'gallon UK', 'gallons UK']
    ],
    scale: linear(litresPerImperialGallon),
    source: handbook44
  },
  usBarrel: {
    quantity: 'volume',
    symbol: 'bbl',
    words: ['BLL', 'bbl', 'bbls', 'barrel', 'barrels', 'US barrel', 'US barrels'],
    scale: linear(litresPerUsBarrel),
    source: handbook44
  },
  kilogram: {
    quantity: 'mass',
    symbol: 'kg',
    words: ['KGM', 'kg', 'kgs', 'kilo', 'kilos', 'kilogram', 'kilograms', 'kilogramme', 'kilogrammes', 'кг'],
    scale: linear(1),
    source: definition
  },
  pound: {
    quantity: 'mass',
    symbol: 'lb',
    words: ['LBR', 'lb', 'lbs', 'pound', 'pounds', 'lbm'],
    scale: linear(kilogramsPerPound),
    source: handbook44
  },
  tonne: {
    quantity: 'mass',
    symbol: 't',
    words: [
      ...['TNE', 't', 'tonne', 'tonnes', 'mt', 'mton', 'mtons', 'metric ton', 'metric tons', 'metric tonnes'],
      ...['kg x 1000', '1000 kg', 'т', 'тонн']
    ],
    scale: linear(1000),
    source: definition
  },
  kilogramPerCubicMetre: {
    quantity: 'density',
    symbol: 'kg/m³',
    words: [
      ...['KMQ', 'kg/m3', 'kg m-3', 'kgs/m3', 'kg/cbm', 'g/L', 'g/dm3', 'кг/м3'],
      ...['kilogram per cubic metre', 'kilograms per cubic metre', 'kilograms per cubic meter']
    ],
    scale: linear(1),
    jetFuel: [700, 900],
    source: definition
  },
  kilogramPerLitre: {
    quantity: 'density',
    symbol: 'kg/L',
    words: [
      ...[
        'B35',
        '23',
        'kg/L',
        'kgs/L',
        'kg/ltr',
        'kg/lt',
        'kg/litre',
        'kg/liter',
        'kg/dm3',
        'g/mL',
        'g/cm3',
        'g/cc',
        't/m3'
      ],
      ...['kilogram per litre', 'kilograms per litre', 'kilograms per liter', 'г/см3', 'кг/л']
    ],
    scale: linear(1000),
    jetFuel: [0.7, 0.9],
    source: definition
  },
  poundPerUsGallon: {
    quantity: 'density',
    symbol: 'lb/US gal',
    words: [
      ...['GE', 'lb/US gal', 'lbs/US gal', 'lb/USG', 'lbs/USG', 'lb/gal US', 'lbs/gal US', 'lb/US gallon'],
      ...['lbs/US gallon', 'pounds per US gallon']
    ],
    scale: linear(1000 * kilogramsPerPound, litresPerUsGallon),
    jetFuel: [5.9, 7.5],
    source: handbook44
  },
  poundPerImperialGallon: {
    quantity: 'density',
    symbol: 'lb/imp gal',
    words: [
      ...[
        'lb/imp gal',
        'lbs/imp gal',
        'lb/IG',
        'lbs/IG',
        'lb/UK gal',
        'lbs/UK gal',
        'lb/gal UK',
        'lbs/gal UK'
      ],
      ...['lb/gal imp', 'lbs/gal imp', 'pounds per imperial gallon']
    ],
    scale: linear(1000 * kilogramsPerPound, litresPerImperialGallon),
    jetFuel: [7, 9],
    source: handbook44
  },
  poundPerLitre: {
    quantity: 'density',
    symbol: 'lb/L',
    words: [
      'lb/L',
      'lbs/L',
      'lb/litre',
      'lbs/litre',
      'lb/liter',
      'lbs/liter',
      'lb/ltr',
      'lbs/ltr',
      'pounds per litre'
    ],
    scale: linear(1000 * kilogramsPerPound),
    jetFuel: [1.55, 1.98],
    source: handbook44
  },
  relativeDensity60F: {
    quantity: 'density',
    symbol: 'RD 60/60 °F',
    words: [
      ...[
        'RD 60/60 F',
        'RD 60/60',
        'SG 60/60 F',
        'SG 60/60',
        'relative density 60/60 F',
        'relative density 60/60'
      ],
      ...['specific gravity 60/60 F', 'specific gravity 60/60', 'RD 60F', 'SG 60F']
    ],
    scale: linear(waterDensity60FKgM3),
    at60F: true,
    jetFuel: [0.7, 0.9],
    source: 'API MPMS Chapter 11.5'
  },
  degreeApi: {
    quantity: 'density',
    symbol: '°API',
    words: [
      'J13',
      'API',
      'deg API',
      'degree API',
      'degrees API',
      'API gravity',
      'API 60F',
      'API deg',
      'gravity API'
    ],
    scale: {
      kind: 'reciprocal',
      times: degreeApiNumerator * waterDensity60FKgM3,
      offset: degreeApiOffset
    },
    at60F: true,
    jetFuel: [30, 60],
    source: 'API MPMS Chapter 11.5'
  },
  celsius: {
    quantity: 'temperature',
    symbol: '°C',
    words: [
      'CEL',
      'C',
      'deg C',
      'degree C',
      'degrees C',
      'celsius',
      'degree celsius',
      'degrees celsius',
      'centigrade'
    ],
    scale: linear(1),
    source: definition
  },
  fahrenheit: {
    quantity: 'temperature',
    symbol: '°F',
    words: [
      'FAH',
      'F',
      'deg F',
      'degree F',
      'degrees F',
      'fahrenheit',
      'degree fahrenheit',
      'degrees fahrenheit'
    ],
    scale: linear(5, 9, 32),
    source: 'NIST SP 811'
  },
  kelvin: {
    quantity: 'temperature',
    symbol: 'K',
    words: ['KEL', 'K', 'kelvin', 'kelvins'],
    scale: linear(1, 1, 273.15),
    source: definition
  },
  picosiemensPerMetre: {
    quantity: 'conductivity',
    symbol: 'pS/m',
    words: [
      'L42',
      'pS/m',
      'CU',
      'picosiemens',
      'picosiemens per metre',
      'picosiemens per meter',
      'conductivity unit'
    ].concat(['conductivity units', 'pS m-1']),
    scale: linear(1),
    source: definition
  },
  nanosiemensPerMetre: {
    quantity: 'conductivity',
    symbol: 'nS/m',
    words: ['G45', 'nS/m', 'nanosiemens per metre', 'nanosiemens per meter', 'nS m-1'],
    scale: linear(1000),
    source: definition
  },
  minute: {
    quantity: 'duration',
    symbol: 'min',
    words: ['MIN', 'min', 'mins', 'minute', 'minutes', 'm'],
    scale: linear(1),
    source: definition
  },
  hour: {
    quantity: 'duration',
    symbol: 'h',
    words: ['HUR', 'h', 'hr', 'hrs', 'hour', 'hours'],
    scale: linear(60),
    source: definition
  },
  second: {
    quantity: 'duration',
    symbol: 's',
    words: ['SEC', 's', 'sec', 'secs', 'second', 'seconds'],
    scale: linear(1, 60),
    source: definition
  },
  milligramPerLitre: {
    quantity: 'particulate',
    symbol: 'mg/L',
    words: [
      'M1',
      'mg/L',
      'mg/litre',
      'mg/liter',
      'mg/ltr',
      'g/m3',
      'milligram per litre',
      'milligrams per litre'
    ],
    scale: linear(1),
    source: definition
  },
  milligramPerUsGallon: {
    quantity: 'particulate',
    symbol: 'mg/US gal',
    words: ['mg/US gal', 'mg/USG', 'mg/US gallon', 'mg/gal US', 'milligrams per US gallon'],
    scale: linear(1, litresPerUsGallon),
    source: handbook44
  },
  milligramPerCubicMetre: {
    quantity: 'particulate',
    symbol: 'mg/m³',
    words: ['GP', 'mg/m3', 'milligram per cubic metre', 'milligrams per cubic metre'],
    scale: linear(1, 1000),
    source: definition
  },
  partPerMillion: {
    quantity: 'water',
    symbol: 'ppm',
    words: [
      '59',
      'ppm',
      'ppmv',
      'ppm v/v',
      'ppm vol',
      'parts per million',
      'part per million',
      'mL/m3',
      'uL/L'
    ],
    scale: linear(1),
    source: definition
  },
  percentByVolume: {
    quantity: 'water',
    symbol: '% v/v',
    words: ['P1', '%', 'percent', 'vol %', '% vol', '% v/v'],
    scale: linear(10000),
    source: definition
  },
  kilopascal: {
    quantity: 'pressure',
    symbol: 'kPa',
    words: ['KPA', 'kPa', 'kilopascal', 'kilopascals'],
    scale: linear(1),
    source: definition
  },
  bar: {
    quantity: 'pressure',
    symbol: 'bar',
    words: ['BAR', 'bar', 'bars', 'bard', 'bar d'],
    scale: linear(100),
    source: 'NIST SP 811'
  },
  millibar: {
    quantity: 'pressure',
    symbol: 'mbar',
    words: ['MBR', 'mbar', 'millibar', 'millibars', 'mb', 'hPa'],
    scale: linear(1, 10),
    source: 'NIST SP 811'
  },
  poundPerSquareInch: {
    quantity: 'pressure',
    symbol: 'psi',
    words: ['PS', 'psi', 'psid', 'psig', 'lb/in2', 'lbf/in2', 'pounds per square inch'],
    scale: linear(kilopascalsPerPsi),
    source: 'NIST SP 811'
  }
} as const satisfies Readonly<Record<string, Unit>>;

export type UnitCode = keyof typeof units;

const codes: readonly string[] = Object.keys(units);

/** Whether a text is the code of a unit in the table, for values that come back from storage or an export. */
export const isUnitCode = (text: string): text is UnitCode => Object.hasOwn(units, text);

/** The row of the table for a unit, typed by its common shape. */
export const unitOf = (code: UnitCode): Unit => units[code];

/** Every unit code in table order, or those of one quantity. */
export const unitCodes = (quantity?: Quantity): UnitCode[] =>
  codes.filter(isUnitCode).filter((code) => quantity === undefined || units[code].quantity === quantity);
