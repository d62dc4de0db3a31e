import {
  degreeApiNumerator,
  degreeApiOffset,
  kilogramsPerPound,
  litresPerImperialGallon,
  litresPerUsGallon,
  waterDensity60FKgM3
} from './factors.ts';
import { definition, handbook44, linear, type Unit } from './unit.ts';

/** Units of density; canonical is kg/m3. */
export const densityUnits = {
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
  }
} as const satisfies Readonly<Record<string, Unit>>;
