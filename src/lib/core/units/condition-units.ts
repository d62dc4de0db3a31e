import { kilopascalsPerPsi } from './factors.ts';
import { definition, linear, type Unit } from './unit.ts';

/** Units of temperature, duration and pressure. */
export const conditionUnits = {
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
