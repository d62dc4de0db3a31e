import { clockOf, dateOf } from '../calendar.ts';
import { demoTypes } from '../fleet.ts';
import type { DemoRow } from '../row.ts';
import { checkColumn, densityColumn, type LayoutColumn, nameColumn, numberColumn } from './column.ts';
import type { Layout } from './layout.ts';

function dottedDate(minute: number): string {
  const { year, month, day } = dateOf(minute);
  return `${day}.${month}.${year}`;
}

const dateColumn: LayoutColumn = {
  ...nameColumn('Date (UTC)', 'time', (row) => dottedDate(row.endMinute)),
  answers: [
    ['field', 'time'],
    ['part', 'date'],
    ['date order', 'day first'],
    ['zone', 'UTC']
  ]
};

const clockColumn: LayoutColumn = {
  ...nameColumn('Finished at (UTC)', '', (row) => clockOf(row.endMinute)),
  answers: [
    ['field', 'time'],
    ['part', 'clock'],
    ['zone', 'UTC']
  ]
};

const kilogramsPerLitre = (valueKgM3: (row: DemoRow) => number) => (row: DemoRow) => valueKgM3(row) / 1000;

const amountToAdd = (row: DemoRow): number => row.orderedKg - row.arrivalFuelKg;

/** The fuelling agent's office: semicolons, decimal commas, date and clock apart, densities in kg/L. */
export const layoutB: Layout = {
  name: 'B',
  delimiter: ';',
  lineEnd: '\r\n',
  hasByteOrderMark: true,
  hasUnitsRow: false,
  hasTotals: false,
  decimalMark: ',',
  columns: [
    nameColumn('Delivery note', 'ticket', (row) => row.ticket),
    dateColumn,
    clockColumn,
    nameColumn('Airport', 'station', (row) => row.stationCode),
    nameColumn('A/C reg', 'tail', (row) => row.tail),
    nameColumn('A/C type', 'type', (row) => demoTypes[row.typeIndex]?.code ?? ''),
    nameColumn('Flight no.', 'flight', (row) => row.flight),
    nameColumn('Seller', 'supplier', (row) => row.supplier),
    nameColumn('Delivered by', 'intoPlaneAgent', (row) => row.agent),
    nameColumn('Refueller', 'vehicle', (row) => row.vehicleCode),
    nameColumn('Meter serial', 'meter', (row) => row.meter),
    nameColumn('Product', 'grade', (row) => row.grade),
    nameColumn('Certificate no.', 'batch', (row) => row.batch),
    numberColumn('Gross volume [L]', 'volume', 'litre', 0, (row) => row.volumeL),
    numberColumn('Totaliser start [L]', 'meterStart', 'litre', 0, (row) => row.meterStartL),
    numberColumn('Totaliser stop [L]', 'meterStop', 'litre', 0, (row) => row.meterStopL),
    densityColumn(
      'Density [kg/L]',
      'kilogramPerLitre',
      4,
      kilogramsPerLitre((row) => row.densityObservedKgM3)
    ),
    numberColumn('Density temp. [°C]', 'densityTemperature', 'celsius', 1, (row) => row.densityTemperatureC),
    numberColumn('Fuel temp. [°C]', 'fuelTemperature', 'celsius', 1, (row) => row.fuelTemperatureC),
    numberColumn(
      'Batch density 15 °C [kg/L]',
      'densityCertificate15',
      'kilogramPerLitre',
      4,
      kilogramsPerLitre((row) => row.densityCertificate15KgM3)
    ),
    numberColumn('Fuel before [kg]', 'arrivalFuel', 'kilogram', 0, (row) => row.arrivalFuelKg),
    numberColumn('Fuel after [kg]', 'departureFuel', 'kilogram', 0, (row) => row.departureFuelKg),
    numberColumn('APU burn [kg]', 'groundBurn', 'kilogram', 0, (row) => row.groundBurnKg),
    numberColumn('Fuel removed [kg]', 'defuelled', 'kilogram', 0, (row) => row.defuelledKg),
    {
      ...numberColumn('Requested [kg]', 'ordered', 'kilogram', 0, amountToAdd),
      answers: [
        ['field', 'ordered'],
        ['unit', 'kilogram'],
        ['ordered as', 'amountToAdd']
      ]
    },
    checkColumn('Water detector', 'waterTest', {
      passed: 'neg',
      failed: 'pos',
      notDone: 'no capsule',
      notRequired: '-'
    }),
    checkColumn('Appearance', 'visual', {
      passed: 'C&B',
      failed: 'sediment',
      notDone: 'not taken',
      notRequired: '-'
    }),
    numberColumn(
      'Conductivity [pS/m]',
      'conductivity',
      'picosiemensPerMetre',
      0,
      (row) => row.conductivityPSM
    ),
    nameColumn('Comment', 'remarks', (row) => row.remarks)
  ]
};
