import { exportName } from '#lib/data/record/index.ts';
import { isoOf } from '../calendar.ts';
import { demoTypes } from '../fleet.ts';
import type { DemoRow } from '../row.ts';
import { checkColumn, type LayoutColumn, nameColumn, numberColumn } from './column.ts';
import type { Layout } from './layout.ts';

const name = (field: Parameters<typeof exportName>[0], text: (row: DemoRow) => string): LayoutColumn =>
  nameColumn(exportName(field), field, text);

const number = (
  field: string,
  unit: string,
  decimals: number,
  value: (row: DemoRow) => number
): LayoutColumn => numberColumn(exportName(field), field, unit, decimals, value);

const words = { passed: 'passed', failed: 'failed', notDone: 'not done', notRequired: 'not required' };

/** The benchmark's layout: 25 columns in canonical units under the names of the export. */
export const layoutPlain: Layout = {
  name: 'plain',
  delimiter: ',',
  lineEnd: '\n',
  hasByteOrderMark: false,
  hasUnitsRow: false,
  hasTotals: false,
  decimalMark: '.',
  columns: [
    name('ticket', (row) => row.ticket),
    name('time', (row) => isoOf(row.endMinute)),
    name('station', (row) => row.stationCode),
    name('tail', (row) => row.tail),
    name('type', (row) => demoTypes[row.typeIndex]?.code ?? ''),
    name('flight', (row) => row.flight),
    name('supplier', (row) => row.supplier),
    name('vehicle', (row) => row.vehicleCode),
    name('meter', (row) => row.meter),
    name('grade', (row) => row.grade),
    number('volume', 'litre', 0, (row) => row.volumeL),
    number('meterStart', 'litre', 0, (row) => row.meterStartL),
    number('meterStop', 'litre', 0, (row) => row.meterStopL),
    number('densityObserved', 'kilogramPerCubicMetre', 1, (row) => row.densityObservedKgM3),
    number('densityTemperature', 'celsius', 1, (row) => row.densityTemperatureC),
    number('fuelTemperature', 'celsius', 1, (row) => row.fuelTemperatureC),
    number('densityCertificate15', 'kilogramPerCubicMetre', 1, (row) => row.densityCertificate15KgM3),
    number('arrivalFuel', 'kilogram', 0, (row) => row.arrivalFuelKg),
    number('departureFuel', 'kilogram', 0, (row) => row.departureFuelKg),
    number('groundBurn', 'kilogram', 0, (row) => row.groundBurnKg),
    number('defuelled', 'kilogram', 0, (row) => row.defuelledKg),
    number('ordered', 'kilogram', 0, (row) => row.orderedKg),
    checkColumn(exportName('waterTest'), 'waterTest', words),
    checkColumn(exportName('visual'), 'visual', words),
    number('conductivity', 'picosiemensPerMetre', 0, (row) => row.conductivityPSM)
  ]
};
