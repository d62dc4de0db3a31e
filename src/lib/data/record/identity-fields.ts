import type { FieldDefinition } from './definition.ts';

/** Who, where and when: the fields that name an uplift. */
export const identityFields = [
  {
    name: 'ticket',
    kind: 'text',
    label: 'Delivery ticket',
    required: 'no',
    headerWords: {
      en: [
        'delivery ticket',
        'ticket number',
        'ticket no',
        'ticket',
        'delivery note',
        'fuel receipt',
        'slip',
        'receipt'
      ]
    },
    help: 'The number of the delivery ticket, kept as text with its leading zeros.'
  },
  {
    name: 'time',
    kind: 'time',
    label: 'End of fuelling',
    required: 'yes',
    headerWords: {
      en: [
        'end of fuelling',
        'fuelling end',
        'end time',
        'finish',
        'time',
        'date time',
        'date',
        'uplift date',
        'completed',
        'stop time'
      ]
    },
    help: 'When fuelling ended. Charts count an uplift in the month and week of this instant, in UTC.'
  },
  {
    name: 'startTime',
    kind: 'time',
    label: 'Start of fuelling',
    required: 'no',
    headerWords: { en: ['start of fuelling', 'fuelling start', 'start time', 'begin', 'started'] },
    help: 'When fuelling began.'
  },
  {
    name: 'station',
    kind: 'name',
    label: 'Station',
    required: 'yes',
    headerWords: { en: ['station', 'airport', 'location', 'port', 'departure station', 'place'] },
    help: 'The airport where the aircraft was refuelled, by the code the source uses.'
  },
  {
    name: 'tail',
    kind: 'name',
    label: 'Tail',
    required: 'yes',
    headerWords: { en: ['tail', 'tail number', 'registration', 'aircraft registration', 'reg', 'ac reg'] },
    help: 'The registration of the aircraft.'
  },
  {
    name: 'type',
    kind: 'name',
    label: 'Aircraft type',
    required: 'no',
    headerWords: { en: ['aircraft type', 'type', 'ac type', 'type designator'] },
    help: 'The type designator of the aircraft. Limits, gauge step and tanks are looked up by it.'
  },
  {
    name: 'flight',
    kind: 'text',
    label: 'Flight',
    required: 'no',
    headerWords: { en: ['flight', 'flight number', 'flight no', 'flt'] },
    help: 'The flight number the uplift was made for.'
  },
  {
    name: 'supplier',
    kind: 'name',
    label: 'Supplier',
    required: 'no',
    headerWords: { en: ['supplier', 'fuel supplier', 'seller', 'vendor'] },
    help: 'Who sold the fuel. The company that pumped it may be another: see into-plane agent.'
  },
  {
    name: 'intoPlaneAgent',
    kind: 'name',
    label: 'Into-plane agent',
    required: 'no',
    headerWords: { en: ['into plane agent', 'into plane', 'agent', 'delivered by', 'fuelling company'] },
    help: 'The company that put the fuel on board.'
  },
  {
    name: 'vehicle',
    kind: 'name',
    label: 'Vehicle',
    required: 'no',
    headerWords: {
      en: ['vehicle', 'refueller', 'fueller', 'bowser', 'dispenser', 'hydrant dispenser', 'truck', 'unit no']
    },
    help: 'The refueller or hydrant dispenser that carries the meter.'
  },
  {
    name: 'meter',
    kind: 'name',
    label: 'Meter',
    required: 'no',
    headerWords: { en: ['meter', 'meter id', 'meter no', 'meter serial', 'meter number'] },
    help: 'The bulk meter, where the source names it apart from the vehicle.'
  },
  {
    name: 'grade',
    kind: 'name',
    label: 'Grade',
    required: 'no',
    headerWords: { en: ['grade', 'fuel grade', 'product', 'fuel type'] },
    help: 'The fuel grade as the source writes it. Density limits are looked up by it.'
  },
  {
    name: 'batch',
    kind: 'name',
    label: 'Batch',
    required: 'no',
    headerWords: { en: ['batch', 'batch no', 'batch number', 'certificate', 'certificate no'] },
    help: 'The fuel batch or certificate number.'
  },
  {
    name: 'remarks',
    kind: 'text',
    label: 'Remarks',
    required: 'no',
    headerWords: { en: ['remarks', 'remark', 'comment', 'comments', 'notes', 'note'] },
    help: 'Free text. It stays in this browser and never enters a link.'
  }
] as const satisfies readonly FieldDefinition[];
