import type { FieldDefinition } from './definition.ts';

const volume = { kind: 'number', quantity: 'volume', unit: 'L', exportUnit: 'l' } as const;
const density = { kind: 'number', quantity: 'density', unit: 'kg/m³', exportUnit: 'kg_m3' } as const;
const temperature = { kind: 'number', quantity: 'temperature', unit: '°C', exportUnit: 'c' } as const;

/** The supplier's half of an uplift: what the meter counted and how dense the fuel was. */
export const meterFields = [
  {
    ...volume,
    name: 'volume',
    label: 'Metered volume',
    required: 'quantity',
    headerWords: {
      en: [
        'metered volume',
        'gross volume',
        'volume',
        'observed volume',
        'uplift volume',
        'quantity delivered',
        'litres',
        'liters',
        'gallons',
        'gross'
      ]
    },
    help: 'Volume by the meter at the temperature of the fuel in it (gross, not corrected to 15 °C).'
  },
  {
    ...volume,
    name: 'netVolume',
    label: 'Net volume',
    required: 'quantity',
    headerWords: { en: ['net volume', 'standard volume', 'corrected volume', 'volume at 15', 'net'] },
    help: 'Volume corrected to the base temperature (usually 15 °C).'
  },
  {
    ...temperature,
    name: 'netBaseTemperature',
    label: 'Base temperature of net volume',
    required: 'no',
    headerWords: { en: ['base temperature', 'net base temperature', 'reference temperature'] },
    help: 'The temperature the net volume is stated at.'
  },
  {
    ...volume,
    name: 'meterStart',
    label: 'Meter start',
    required: 'quantity',
    headerWords: {
      en: [
        'meter start',
        'start reading',
        'opening reading',
        'totaliser start',
        'meter before',
        'start meter'
      ]
    },
    help: 'Totaliser before the delivery.'
  },
  {
    ...volume,
    name: 'meterStop',
    label: 'Meter stop',
    required: 'quantity',
    headerWords: {
      en: [
        'meter stop',
        'stop reading',
        'closing reading',
        'totaliser stop',
        'meter end',
        'meter after',
        'stop meter'
      ]
    },
    help: 'Totaliser after the delivery.'
  },
  {
    ...density,
    name: 'densityObserved',
    label: 'Observed density',
    required: 'no',
    headerWords: {
      en: [
        'observed density',
        'density observed',
        'density',
        'measured density',
        'specific gravity',
        'sg',
        'relative density',
        'api gravity'
      ]
    },
    help: 'Density as measured at the sample temperature.'
  },
  {
    name: 'densityMethod',
    kind: 'choice',
    choices: ['hydrometer', 'densitometer', 'inLine'],
    label: 'Density measured by',
    required: 'no',
    headerWords: { en: ['density method', 'hydrometer or densitometer', 'density instrument'] },
    help: 'Glass hydrometer, digital densitometer, or an in-line instrument at the meter temperature.'
  },
  {
    ...temperature,
    name: 'densityTemperature',
    label: 'Sample temperature',
    required: 'no',
    headerWords: {
      en: [
        'sample temperature',
        'density temperature',
        'density temp',
        'observed temperature',
        'hydrometer temperature'
      ]
    },
    help: 'Temperature of the sample when its density was read.'
  },
  {
    ...temperature,
    name: 'fuelTemperature',
    label: 'Fuel temperature at meter',
    required: 'no',
    headerWords: {
      en: ['fuel temperature', 'fuel temp', 'meter temperature', 'temperature', 'product temperature', 'temp']
    },
    help: 'Temperature of the fuel in the meter.'
  },
  {
    ...density,
    name: 'densityTicket15',
    label: 'Ticket density at 15 °C',
    required: 'no',
    headerWords: {
      en: [
        'density at 15',
        'standard density',
        'density 15',
        'density 15c',
        'corrected density',
        'ticket density at 15'
      ]
    },
    help: 'Density at 15 °C as the ticket states it.'
  },
  {
    ...density,
    name: 'densityCertificate15',
    label: 'Certificate density at 15 °C',
    required: 'no',
    headerWords: {
      en: ['certificate density', 'batch density', 'certificate density at 15', 'density on certificate']
    },
    help: 'Density at 15 °C on the batch certificate.'
  },
  {
    name: 'defuelled',
    kind: 'number',
    quantity: 'mass',
    unit: 'kg',
    exportUnit: 'kg',
    label: 'Defuelled',
    required: 'quantity',
    headerWords: { en: ['defuelled', 'defuel', 'defuel quantity', 'fuel removed', 'defueled'] },
    help: 'Fuel taken off between the two gauge readings, as a positive mass.'
  },
  {
    name: 'defuelReason',
    kind: 'text',
    label: 'Reason for defuelling',
    required: 'no',
    headerWords: { en: ['defuel reason', 'reason for defuel', 'defuelling reason'] },
    help: 'Why fuel was taken off.'
  }
] as const satisfies readonly FieldDefinition[];
