import { kilogramsPerPound } from './factors.ts';
import { definition, handbook44, linear, type Unit } from './unit.ts';

/** Units of mass; canonical is the kilogram. */
export const massUnits = {
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
      ...['kg x 1000', 'x1000 kg', '1000 kg', '000 kg', 'kg 000', 'thousand kg', 'т', 'тонн']
    ],
    scale: linear(1000),
    source: definition
  },
  hundredKilograms: {
    quantity: 'mass',
    symbol: '100 kg',
    words: ['kg x 100', 'x100 kg', '100 kg', '00 kg', 'hundred kg'],
    scale: linear(100),
    source: definition
  },
  thousandPounds: {
    quantity: 'mass',
    symbol: '1000 lb',
    words: [
      ...['lb x 1000', 'lbs x 1000', 'x1000 lb', 'x1000 lbs', '1000 lb', '1000 lbs', '000 lb', '000 lbs'],
      ...['klb', 'klbs', 'k lb', 'thousand lb', 'thousand lbs', 'thousand pounds']
    ],
    scale: linear(1000 * kilogramsPerPound),
    source: handbook44
  },
  hundredPounds: {
    quantity: 'mass',
    symbol: '100 lb',
    words: ['lb x 100', 'lbs x 100', 'x100 lb', 'x100 lbs', '100 lb', '100 lbs', '00 lb', '00 lbs'],
    scale: linear(100 * kilogramsPerPound),
    source: handbook44
  }
} as const satisfies Readonly<Record<string, Unit>>;
