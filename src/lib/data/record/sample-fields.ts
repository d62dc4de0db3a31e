import type { FieldDefinition } from './definition.ts';

/** Sample checks made at the uplift. A blank is "not recorded", never a pass. */
export const sampleFields = [
  {
    name: 'waterTest',
    kind: 'check',
    side: 'supplier',
    label: 'Chemical water detector',
    required: 'no',
    headerWords: {
      en: ['water test', 'water detector', 'chemical water detector', 'water check', 'free water']
    },
    help: 'Outcome of the chemical water detector test, or a figure in ppm judged against a limit.'
  },
  {
    name: 'visual',
    kind: 'check',
    side: 'supplier',
    label: 'Visual appearance',
    required: 'no',
    headerWords: {
      en: [
        'visual',
        'visual check',
        'appearance',
        'visual appearance',
        'appearance check',
        'clear and bright'
      ]
    },
    help: 'Outcome of the appearance check of the sample.'
  },
  {
    name: 'conductivity',
    kind: 'number',
    quantity: 'conductivity',
    unit: 'pS/m',
    exportUnit: 'ps_m',
    label: 'Conductivity',
    required: 'no',
    headerWords: { en: ['conductivity', 'electrical conductivity'] },
    help: 'Electrical conductivity. It depends on temperature.'
  },
  {
    name: 'conductivityTemperature',
    kind: 'number',
    quantity: 'temperature',
    unit: '°C',
    exportUnit: 'c',
    label: 'Conductivity temperature',
    required: 'no',
    headerWords: { en: ['conductivity temperature', 'conductivity temp'] },
    help: 'Temperature at which conductivity was read.'
  },
  {
    name: 'particulate',
    kind: 'number',
    quantity: 'particulate',
    unit: 'mg/L',
    exportUnit: 'mg_l',
    label: 'Particulate',
    required: 'no',
    headerWords: { en: ['particulate', 'particulates', 'gravimetric', 'solids'] },
    help: 'Particulate by mass per volume.'
  },
  {
    name: 'particulateColour',
    kind: 'check',
    side: 'supplier',
    label: 'Membrane colour',
    required: 'no',
    headerWords: { en: ['membrane colour', 'particulate colour', 'membrane color', 'colour rating'] },
    help: 'Outcome of the membrane colour rating.'
  },
  {
    name: 'waterDrained',
    kind: 'check',
    side: 'aircraft',
    label: 'Water in aircraft sump',
    required: 'no',
    headerWords: { en: ['water drained', 'sump drain', 'aircraft sump', 'sump water', 'tank drain'] },
    help: 'Whether water was found when the aircraft tanks were drained: a finding about the aircraft, not the supplier.'
  }
] as const satisfies readonly FieldDefinition[];
