import { litresPerUsGallon } from './factors.ts';
import { definition, handbook44, linear, type Unit } from './unit.ts';

/** Units of sample checks: conductivity, particulate matter, free water. "CU", conductivity unit, is the trade's name for pS/m. */
export const sampleUnits = {
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
  }
} as const satisfies Readonly<Record<string, Unit>>;
