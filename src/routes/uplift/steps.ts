import type { SheetAnswer, SheetTicket } from '#lib/data/questions/index.ts';
import { formatNumber } from '#lib/ui/format.ts';

/** One line of a worked side: what, its value, its unit and how it came about. */
export interface Step {
  readonly label: string;
  readonly value: string;
  readonly unit: string;
  readonly how: string;
}

function step(
  label: string,
  value: number,
  decimals: number,
  unit: string,
  how: string,
  signed = false
): Step {
  return { label, value: formatNumber(value, { decimals, signed }), unit, how };
}

const given = 'as read';

function present(steps: readonly (Step | null)[]): Step[] {
  return steps.filter((each): each is Step => each !== null);
}

function onlyIf(value: number, make: (value: number) => Step): Step | null {
  return Number.isFinite(value) ? make(value) : null;
}

/** The meter side of one ticket, every intermediate with its unit. */
export function meterSteps(ticket: SheetTicket): Step[] {
  const { input, result } = ticket;
  return present([
    onlyIf(input.meterStartL, (value) => step('Meter start', value, 1, 'L', given)),
    onlyIf(input.meterStopL, (value) => step('Meter stop', value, 1, 'L', given)),
    step(
      'Volume at the meter',
      result.volumeL,
      1,
      'L',
      Number.isFinite(input.grossVolumeL) ? given : 'stop less start'
    ),
    onlyIf(input.netVolumeL, (value) => step('Net volume', value, 1, 'L', given)),
    onlyIf(input.observedDensityKgM3, (value) => step('Observed density', value, 1, 'kg/m³', given)),
    onlyIf(input.sampleTemperatureC, (value) => step('Sample temperature', value, 1, '°C', given, true)),
    onlyIf(input.meterTemperatureC, (value) =>
      step('Fuel temperature at the meter', value, 1, '°C', given, true)
    ),
    onlyIf(input.ticketDensity15KgM3, (value) => step('Ticket density at 15 °C', value, 1, 'kg/m³', given)),
    onlyIf(input.certificateDensity15KgM3, (value) =>
      step('Certificate density at 15 °C', value, 1, 'kg/m³', given)
    ),
    onlyIf(result.density15KgM3, (value) =>
      step('Density at 15 °C', value, 2, 'kg/m³', 'by the density tables')
    ),
    onlyIf(result.densityAtMeterKgM3, (value) =>
      step('Density at the meter', value, 2, 'kg/m³', 'by the density case')
    ),
    onlyIf(result.volume15L, (value) => step('Volume at 15 °C', value, 1, 'L', 'mass over density at 15 °C')),
    step('Metered mass', result.meteredMassKg, 1, 'kg', 'volume times density, over 1000'),
    onlyIf(result.certificateDifferenceKgM3, (value) =>
      step('Density less certificate', value, 2, 'kg/m³', 'both at 15 °C', true)
    ),
    onlyIf(result.densityDifferenceKgM3, (value) =>
      step('Observed less ticket density', value, 2, 'kg/m³', 'both at 15 °C: two independent ones', true)
    ),
    onlyIf(result.densityDifferenceKgM3, (value) =>
      step(
        'That difference as mass',
        (result.meteredMassKg * value) / result.density15KgM3,
        1,
        'kg',
        'its share of the density, of the metered mass',
        true
      )
    ),
    onlyIf(result.massUncertaintyKg, (value) =>
      step('Standard uncertainty', value, 1, 'kg', 'meter and density')
    )
  ]);
}

/** The gauge side of the refuelling. */
export function gaugeSteps(answer: SheetAnswer): Step[] {
  const { input, result } = answer;
  const burn = Number.isFinite(input.groundBurnKg) ? given : 'not recorded: counted as 0';
  return present([
    step('Departure fuel', input.departureFuelKg, 1, 'kg', given),
    step('Arrival fuel', input.arrivalFuelKg, 1, 'kg', given),
    step(
      'Ground burn',
      result.groundBurnKg,
      1,
      'kg',
      Number.isFinite(input.groundBurnKg) || result.groundBurnKg === 0
        ? burn
        : 'minutes times the operator’s rate'
    ),
    step(
      'Defuelled',
      Number.isFinite(input.defuelledKg) ? input.defuelledKg : 0,
      1,
      'kg',
      Number.isFinite(input.defuelledKg) ? given : 'none recorded'
    ),
    step('Gauge uplift', result.gaugeUpliftKg, 1, 'kg', 'departure less arrival, plus burn, plus defuelled'),
    step(
      'Expected departure fuel',
      result.expectedDepartureKg,
      1,
      'kg',
      'arrival less burn, less defuelled, plus metered mass'
    ),
    onlyIf(input.orderedKg, (value) => step('Ordered fuel', value, 1, 'kg', given)),
    onlyIf(result.orderDifferenceKg, (value) =>
      step('Delivered less ordered', value, 1, 'kg', 'by the meaning of the order', true)
    ),
    onlyIf(result.tankSplitKg, (value) =>
      step('Departure fuel less its tanks', value, 1, 'kg', 'should be 0 or rounding', true)
    ),
    onlyIf(result.imbalanceKg, (value) =>
      step('Left less right', value, 1, 'kg', 'tanks after refuelling', true)
    ),
    onlyIf(input.stickFuelKg, (value) => step('Stick reading', value, 1, 'kg', given)),
    onlyIf(result.stickLessGaugeKg, (value) =>
      step('Stick less gauge', value, 1, 'kg', 'third measure', true)
    ),
    onlyIf(result.recordedUpliftDifferenceKg, (value) =>
      step('Recorded less recomputed uplift', value, 1, 'kg', 'what the source worked out', true)
    ),
    onlyIf(result.recordedDiscrepancyDifferenceKg, (value) =>
      step('Recorded less recomputed discrepancy', value, 1, 'kg', 'what the source worked out', true)
    ),
    onlyIf(result.gaugeUncertaintyKg, (value) =>
      step('Standard uncertainty', value, 1, 'kg', 'two gauge readings')
    )
  ]);
}
