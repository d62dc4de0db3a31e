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
      ...['kg x 1000', '1000 kg', 'т', 'тонн']
    ],
    scale: linear(1000),
    source: definition
  }
} as const satisfies Readonly<Record<string, Unit>>;
