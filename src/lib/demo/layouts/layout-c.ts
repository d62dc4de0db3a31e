import { clockOf, dateOf } from '../calendar.ts';
import { demoTypes } from '../fleet.ts';
import type { DemoRow } from '../row.ts';
import { demoStations } from '../stations.ts';
import { fillTanks, leftOuterTank } from '../tanks.ts';
import { checkColumn, densityColumn, type LayoutColumn, nameColumn, numberColumn } from './column.ts';
import type { Layout } from './layout.ts';

/** Minute by the clock on the station's wall. */
const localMinute = (row: DemoRow, minute: number): number =>
  minute + (demoStations[row.station]?.utcOffsetMinutes ?? 0);

function slashedTime(minute: number, isMonthFirst: boolean): string {
  const { year, month, day } = dateOf(minute);
  return `${isMonthFirst ? `${month}/${day}` : `${day}/${month}`}/${year} ${clockOf(minute)}`;
}

function timeColumn(
  header: string,
  field: string,
  minute: 'startMinute' | 'endMinute',
  isMonthFirst: boolean
): LayoutColumn {
  return {
    ...nameColumn(header, field, (row) => slashedTime(localMinute(row, row[minute]), isMonthFirst)),
    unitRow: isMonthFirst ? 'mm/dd/yyyy hh:mm' : 'dd/mm/yyyy hh:mm',
    answers: [
      ['field', field],
      ['date order', isMonthFirst ? 'month first' : 'day first'],
      ['zone', 'station']
    ]
  };
}

const tankNames = [...new Set(demoTypes.flatMap((type) => type.tanks.map((tank) => tank.name)))];

/** What the gauge of one tank reads: its share of the total, less what a sticking probe hides. NaN: no such tank. */
function tankKg(row: DemoRow, name: string, isAfter: boolean): number {
  const type = demoTypes[row.typeIndex];
  const index = type?.tanks.findIndex((tank) => tank.name === name) ?? -1;
  const shownKg = isAfter ? row.departureFuelKg : row.arrivalFuelKg;
  if (type === undefined || index < 0 || Number.isNaN(shownKg)) return NaN;
  const hiddenKg = isAfter ? row.hiddenAfterKg : row.hiddenBeforeKg;
  const inTankKg = fillTanks(row.typeIndex, shownKg + hiddenKg)[index] ?? NaN;
  const readKg = index === leftOuterTank ? inTankKg - hiddenKg : inTankKg;
  return Math.round(readKg / type.gaugeStepKg) * type.gaugeStepKg;
}

function tankColumns(family: 'tanksBefore' | 'tanksAfter'): LayoutColumn[] {
  const isAfter = family === 'tanksAfter';
  return tankNames.map((name) => ({
    ...numberColumn(
      `Tank ${isAfter ? 'after' : 'before'}, ${name}`,
      family,
      'kilogram',
      0,
      (row) => tankKg(row, name, isAfter),
      'kg'
    ),
    field: `${family}:${name}`,
    answers: [
      ['field', family],
      ['member', name],
      ['unit', 'kilogram']
    ]
  }));
}

/** The new contractor: tabs, station time, units in a row of their own, tanks one by one, totals at the end. */
export function layoutC(isMonthFirst: boolean, decimalMark: '.' | ','): Layout {
  return {
    name: 'C',
    delimiter: '\t',
    lineEnd: '\n',
    hasByteOrderMark: false,
    hasUnitsRow: true,
    hasTotals: true,
    decimalMark,
    columns: [
      nameColumn('Slip', 'ticket', (row) => row.ticket),
      timeColumn('Start time', 'startTime', 'startMinute', isMonthFirst),
      timeColumn('End time', 'time', 'endMinute', isMonthFirst),
      nameColumn('Place', 'station', (row) => row.stationCode),
      nameColumn('Tail', 'tail', (row) => row.tail),
      nameColumn('Type', 'type', (row) => demoTypes[row.typeIndex]?.code ?? ''),
      nameColumn('Flt', 'flight', (row) => row.flight),
      nameColumn('Fuel supplier', 'supplier', (row) => row.supplier),
      nameColumn('Agent', 'intoPlaneAgent', (row) => row.agent),
      nameColumn('Truck', 'vehicle', (row) => row.vehicleCode),
      nameColumn('Meter', 'meter', (row) => row.meter),
      nameColumn('Fuel grade', 'grade', (row) => row.grade),
      nameColumn('Batch no', 'batch', (row) => row.batch),
      numberColumn('Uplift volume', 'volume', 'litre', 0, (row) => row.volumeL, 'L'),
      numberColumn('Opening reading', 'meterStart', 'litre', 0, (row) => row.meterStartL, 'L'),
      numberColumn('Closing reading', 'meterStop', 'litre', 0, (row) => row.meterStopL, 'L'),
      densityColumn(
        'Density observed',
        'kilogramPerCubicMetre',
        1,
        (row) => row.densityObservedKgM3,
        'kg/m3'
      ),
      numberColumn('Density temp', 'densityTemperature', 'celsius', 1, (row) => row.densityTemperatureC, 'C'),
      numberColumn('Fuel temp', 'fuelTemperature', 'celsius', 1, (row) => row.fuelTemperatureC, 'C'),
      numberColumn(
        'Certificate density',
        'densityCertificate15',
        'kilogramPerCubicMetre',
        1,
        (row) => row.densityCertificate15KgM3,
        'kg/m3'
      ),
      numberColumn('Fuel on arrival', 'arrivalFuel', 'kilogram', 0, (row) => row.arrivalFuelKg, 'kg'),
      numberColumn('Fuel on departure', 'departureFuel', 'kilogram', 0, (row) => row.departureFuelKg, 'kg'),
      numberColumn('Burn on ground', 'groundBurn', 'kilogram', 0, (row) => row.groundBurnKg, 'kg'),
      numberColumn('Defuel', 'defuelled', 'kilogram', 0, (row) => row.defuelledKg, 'kg'),
      {
        ...numberColumn('Fuel order', 'ordered', 'kilogram', 0, (row) => row.orderedKg, 'kg'),
        answers: [
          ['field', 'ordered'],
          ['unit', 'kilogram'],
          ['ordered as', 'totalOnBoard']
        ]
      },
      ...tankColumns('tanksBefore'),
      ...tankColumns('tanksAfter'),
      checkColumn('Water check', 'waterTest', {
        passed: 'dry',
        failed: 'water',
        notDone: 'none made',
        notRequired: 'exempt'
      }),
      checkColumn('Visual', 'visual', {
        passed: 'clear',
        failed: 'cloudy',
        notDone: 'none made',
        notRequired: 'exempt'
      }),
      numberColumn(
        'Electrical conductivity',
        'conductivity',
        'picosiemensPerMetre',
        0,
        (row) => row.conductivityPSM,
        'pS/m'
      ),
      nameColumn('Notes', 'remarks', (row) => row.remarks)
    ]
  };
}
