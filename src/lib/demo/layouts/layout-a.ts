import { isoOf } from '../calendar.ts';
import { demoTypes } from '../fleet.ts';
import { checkColumn, densityColumn, type LayoutColumn, nameColumn, numberColumn } from './column.ts';
import type { Layout } from './layout.ts';

const time = (header: string, field: string, minute: 'startMinute' | 'endMinute'): LayoutColumn => ({
  ...nameColumn(header, field, (row) => isoOf(row[minute])),
  answers: [
    ['field', field],
    ['date order', 'year first'],
    ['zone', 'UTC']
  ]
});

/** The airline's own operations office: commas, instants in UTC, units in the headers. */
export const layoutA: Layout = {
  name: 'A',
  delimiter: ',',
  lineEnd: '\n',
  hasByteOrderMark: false,
  hasUnitsRow: false,
  hasTotals: false,
  decimalMark: '.',
  columns: [
    nameColumn('Ticket', 'ticket', (row) => row.ticket),
    time('Fuelling start (UTC)', 'startTime', 'startMinute'),
    time('Fuelling end (UTC)', 'time', 'endMinute'),
    nameColumn('Station', 'station', (row) => row.stationCode),
    nameColumn('Registration', 'tail', (row) => row.tail),
    nameColumn('Aircraft type', 'type', (row) => demoTypes[row.typeIndex]?.code ?? ''),
    nameColumn('Flight', 'flight', (row) => row.flight),
    nameColumn('Supplier', 'supplier', (row) => row.supplier),
    nameColumn('Into-plane agent', 'intoPlaneAgent', (row) => row.agent),
    nameColumn('Vehicle', 'vehicle', (row) => row.vehicleCode),
    nameColumn('Meter no.', 'meter', (row) => row.meter),
    nameColumn('Grade', 'grade', (row) => row.grade),
    nameColumn('Batch', 'batch', (row) => row.batch),
    numberColumn('Volume (L)', 'volume', 'litre', 0, (row) => row.volumeL),
    numberColumn('Meter start (L)', 'meterStart', 'litre', 0, (row) => row.meterStartL),
    numberColumn('Meter stop (L)', 'meterStop', 'litre', 0, (row) => row.meterStopL),
    densityColumn('Observed density (kg/m3)', 'kilogramPerCubicMetre', 1, (row) => row.densityObservedKgM3),
    numberColumn(
      'Sample temperature (C)',
      'densityTemperature',
      'celsius',
      1,
      (row) => row.densityTemperatureC
    ),
    numberColumn('Fuel temperature (C)', 'fuelTemperature', 'celsius', 1, (row) => row.fuelTemperatureC),
    numberColumn(
      'Certificate density at 15 C (kg/m3)',
      'densityCertificate15',
      'kilogramPerCubicMetre',
      1,
      (row) => row.densityCertificate15KgM3
    ),
    numberColumn('Arrival fuel (kg)', 'arrivalFuel', 'kilogram', 0, (row) => row.arrivalFuelKg),
    numberColumn('Departure fuel (kg)', 'departureFuel', 'kilogram', 0, (row) => row.departureFuelKg),
    numberColumn('Ground burn (kg)', 'groundBurn', 'kilogram', 0, (row) => row.groundBurnKg),
    numberColumn('Defuelled (kg)', 'defuelled', 'kilogram', 0, (row) => row.defuelledKg),
    {
      ...numberColumn('Ordered fuel, total (kg)', 'ordered', 'kilogram', 0, (row) => row.orderedKg),
      answers: [
        ['field', 'ordered'],
        ['unit', 'kilogram'],
        ['ordered as', 'totalOnBoard']
      ]
    },
    checkColumn('Water test', 'waterTest', {
      passed: 'PASS',
      failed: 'FAIL',
      notDone: 'NOT DONE',
      notRequired: 'N/R'
    }),
    checkColumn('Visual check', 'visual', {
      passed: 'PASS',
      failed: 'FAIL',
      notDone: 'NOT DONE',
      notRequired: 'N/R'
    }),
    numberColumn(
      'Conductivity (pS/m)',
      'conductivity',
      'picosiemensPerMetre',
      0,
      (row) => row.conductivityPSM
    ),
    nameColumn('Remarks', 'remarks', (row) => row.remarks)
  ]
};
