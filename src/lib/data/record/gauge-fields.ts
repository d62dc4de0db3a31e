import type { FieldDefinition } from './definition.ts';

const mass = { kind: 'number', quantity: 'mass', unit: 'kg', exportUnit: 'kg' } as const;

/** The aircraft's half of an uplift: what the gauges read and what was asked for. */
export const gaugeFields = [
  {
    ...mass,
    name: 'arrivalFuel',
    label: 'Arrival fuel',
    required: 'no',
    headerWords: {
      en: [
        'arrival fuel',
        'fuel on arrival',
        'fuel before',
        'remaining fuel',
        'fob before',
        'before refuelling',
        'initial fuel',
        'arrival'
      ]
    },
    help: 'Fuel on board by the gauges before refuelling.'
  },
  {
    ...mass,
    name: 'departureFuel',
    label: 'Departure fuel',
    required: 'no',
    headerWords: {
      en: [
        'departure fuel',
        'fuel on departure',
        'fuel after',
        'total fuel',
        'fob after',
        'after refuelling',
        'final fuel',
        'departure'
      ]
    },
    help: 'Fuel on board by the gauges after refuelling.'
  },
  {
    ...mass,
    name: 'groundBurn',
    label: 'Ground burn',
    required: 'no',
    headerWords: { en: ['ground burn', 'apu burn', 'burn on ground', 'apu fuel'] },
    help: 'Fuel burnt between the two gauge readings, mostly by the auxiliary power unit.'
  },
  {
    name: 'groundMinutes',
    kind: 'number',
    quantity: 'duration',
    unit: 'min',
    exportUnit: 'min',
    label: 'Ground minutes',
    required: 'no',
    headerWords: { en: ['ground minutes', 'minutes between readings', 'apu minutes'] },
    help: 'Minutes between the two gauge readings.'
  },
  {
    ...mass,
    name: 'ordered',
    label: 'Ordered fuel',
    required: 'no',
    headerWords: {
      en: ['ordered fuel', 'fuel ordered', 'ordered', 'fuel order', 'requested', 'preset', 'required fuel']
    },
    help: 'What was asked for: a total on board, or an amount to add.'
  },
  {
    name: 'orderedBasis',
    kind: 'choice',
    choices: ['totalOnBoard', 'amountToAdd'],
    label: 'Ordered as',
    required: 'no',
    headerWords: { en: ['ordered as', 'order basis', 'ordered basis'] },
    help: 'Whether the order is a total on board or an amount to add.'
  },
  {
    ...mass,
    name: 'recordedUplift',
    label: 'Recorded uplift',
    required: 'no',
    headerWords: {
      en: ['recorded uplift', 'uplift mass', 'uplift kg', 'delivered mass', 'uplift weight', 'mass delivered']
    },
    help: 'The uplifted mass as the source worked it out. Gaugebook recomputes it and shows the difference.'
  },
  {
    ...mass,
    name: 'recordedDiscrepancy',
    label: 'Recorded discrepancy',
    required: 'no',
    headerWords: { en: ['recorded discrepancy', 'discrepancy', 'difference', 'deviation'] },
    help: 'The discrepancy as the source worked it out, turned so that plus means the gauge says more.'
  },
  {
    ...mass,
    name: 'tanksBefore',
    family: true,
    label: 'Tank before',
    required: 'no',
    headerWords: { en: ['tank before', 'before tank', 'arrival tank'] },
    help: 'Fuel in one tank before refuelling: one column per tank.'
  },
  {
    ...mass,
    name: 'tanksAfter',
    family: true,
    label: 'Tank after',
    required: 'no',
    headerWords: { en: ['tank after', 'after tank', 'departure tank'] },
    help: 'Fuel in one tank after refuelling: one column per tank.'
  },
  {
    ...mass,
    name: 'stickReading',
    label: 'Stick reading',
    required: 'no',
    headerWords: { en: ['stick reading', 'drip stick', 'dip reading', 'magnetic stick', 'manual reading'] },
    help: 'Total fuel by manual stick readings, converted to mass by the source.'
  }
] as const satisfies readonly FieldDefinition[];
