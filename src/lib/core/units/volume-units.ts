import { litresPerImperialGallon, litresPerUsBarrel, litresPerUsGallon } from './factors.ts';
import { definition, handbook44, linear, type Unit } from './unit.ts';

/** Units of volume; canonical is the litre. */
export const volumeUnits = {
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
    words: [
      'MTQ',
      'm3',
      'cbm',
      'kL',
      'x1000 L',
      '1000 L',
      '000 L',
      'L x 1000',
      'kilolitre',
      'kilolitres',
      'kiloliter',
      'kiloliters'
    ].concat(['cubic metre', 'cubic metres', 'cubic meter', 'cubic meters', 'cu m'], ['м3']),
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
  }
} as const satisfies Readonly<Record<string, Unit>>;
