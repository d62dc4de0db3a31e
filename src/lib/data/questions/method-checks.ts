import { editions, volumeCorrectionFactor } from '#lib/core/density/index.ts';
import {
  addTicket,
  createRefuellingInput,
  createRefuellingResult,
  createTicketInput,
  createTicketResult,
  defaultMethod as defaultArithmetic,
  measured,
  reconcileRefuelling,
  reconcileTicket,
  type TicketResult
} from '#lib/core/reconciliation/index.ts';
import { toCanonical, type UnitCode } from '#lib/core/units/index.ts';

/** One published value beside what this program makes of the same inputs. */
export interface MethodCheck {
  readonly part: 'density' | 'units' | 'reconciliation';
  readonly what: string;
  readonly source: string;
  readonly unit: string;
  readonly published: number;
  /** Digits after the point that were published. */
  readonly decimals: number;
  readonly computed: number;
  /** Computed rounds to what was published, or is within a unit of its last digit where the source rounded inside. */
  readonly passed: boolean;
}

interface Row {
  readonly part: MethodCheck['part'];
  readonly what: string;
  readonly source: string;
  readonly unit: string;
  readonly published: number;
  readonly decimals: number;
  readonly compute: () => number;
  /** Units of the last published digit that the source's own rounding explains; half a unit if left out. */
  readonly within?: number;
}

const measurementCanada = 'Measurement Canada, volume correction factors, January 2016';
const gimli = 'Board of Inquiry, Gimli accident of 1983, final report 1985 (as cited in several accounts)';
const icao = 'ICAO Doc 9501 Vol. IV, 1st edition 2018, Table 3-4';

function factorRows(): Row[] {
  const published: readonly (readonly [density15: number, temperatureC: number, factor: number])[] = [
    [800, -40, 1.0502],
    [800, -35, 1.0457],
    [800, -30, 1.0412],
    [800, -25, 1.0367],
    [800, -20, 1.0322],
    [710, -40, 1.07],
    [710, -20, 1.045]
  ];
  return published.map(([density15, temperatureC, factor]) => ({
    part: 'density',
    what: `Factor to 15 °C of fuel of ${density15} kg/m³ at ${String(temperatureC).replace('-', '−')} °C`,
    source: measurementCanada,
    unit: '',
    published: factor,
    decimals: 4,
    compute: () => volumeCorrectionFactor(density15, temperatureC, editions[0])
  }));
}

/** Mass of a volume at one density, by the same path as every ticket. */
function massKg(volumeL: number, densityKgM3: number): number {
  const input = createTicketInput();
  const result = createTicketResult();
  input.grossVolumeL = volumeL;
  input.observedDensityKgM3 = densityKgM3;
  input.sampleTemperatureC = 15;
  input.meterTemperatureC = 15;
  reconcileTicket(input, defaultArithmetic, result);
  return result.meteredMassKg;
}

function gimliRows(): Row[] {
  const poundsPerLitre = 1.77;
  return [
    {
      part: 'reconciliation',
      what: 'Fuel on board by the drip sticks: 7,682 L at 0.803 kg/L',
      source: gimli,
      unit: 'kg',
      published: 6169,
      decimals: 0,
      compute: () => massKg(7682, 803)
    },
    {
      part: 'reconciliation',
      what: 'Fuel to be added for 22,300 kg on board, from the published 6,169 kg',
      source: gimli,
      unit: 'L',
      published: 20088,
      decimals: 0,
      within: 1,
      compute: () => (22_300 - 6_169) / 0.803
    },
    {
      part: 'reconciliation',
      what: 'Fuel that was added, with 1.77 lb/L taken for kg/L',
      source: gimli,
      unit: 'L',
      published: 4917,
      decimals: 0,
      compute: () => (22_300 - 7_682 * poundsPerLitre) / poundsPerLitre
    },
    {
      part: 'reconciliation',
      what: 'Fuel on board after that: 7,682 L and 4,917 L at 0.803 kg/L, published to the hundred',
      source: gimli,
      unit: 'kg',
      published: 10_100,
      decimals: -2,
      compute: () => massKg(7682 + 4917, 803)
    },
    {
      part: 'reconciliation',
      what: 'The same fuel at 1.77 lb/L: the 22,300 that was read as kilograms',
      source: gimli,
      unit: 'lb',
      published: 22_300,
      decimals: 0,
      within: 1,
      compute: () => (7682 + 4917) * poundsPerLitre
    },
    {
      part: 'units',
      what: '1.77 lb/L as a density',
      source: gimli,
      unit: 'kg/L',
      published: 0.803,
      decimals: 3,
      compute: () => poundsPerLitre * toCanonical('pound', 1)
    }
  ];
}

const pound = (): number => toCanonical('pound', 1);
/** The factor that both reports use. */
const reportedKgM3 = (): number => toCanonical('poundPerUsGallon', 6.7);

/** Gauge less metered of a refuelling that a report gives in pounds, by the path of every record. */
function discrepancyLb(volumeL: number, arrivalLb: number, departureLb: number): number {
  const input = createRefuellingInput();
  const result = createRefuellingResult();
  addTicket(input, ticketOf(massKg(volumeL, reportedKgM3())));
  input.arrivalFuelKg = toCanonical('pound', arrivalLb);
  input.departureFuelKg = toCanonical('pound', departureLb);
  reconcileRefuelling(input, defaultArithmetic, result);
  return result.discrepancyKg / pound();
}

/** Two reports of disagreeing gauges. What they leave to the reader is worked out from their figures by hand. */
function reportRows(): Row[] {
  return [
    {
      part: 'reconciliation',
      what: '11,100 lb and 2,905 US gal at 6.7 lb/US gal, gauges then 31,500 lb: gauge less meter',
      source: 'NASA ASRS 749778, by hand from its figures',
      unit: 'lb',
      published: 936.5,
      decimals: 1,
      compute: () => discrepancyLb(toCanonical('usGallon', 2905), 11_100, 31_500)
    },
    {
      part: 'units',
      what: '13,280 L in US gallons',
      source: 'NASA ASRS 809545',
      unit: 'US gal',
      published: 3508,
      decimals: 0,
      compute: () => 13_280 / toCanonical('usGallon', 1)
    },
    {
      part: 'reconciliation',
      what: '13,280 L at 6.7 lb/US gal, published to the hundred',
      source: 'NASA ASRS 809545',
      unit: 'lb',
      published: 23_500,
      decimals: -2,
      compute: () => massKg(13_280, reportedKgM3()) / pound()
    },
    {
      part: 'reconciliation',
      what: '9,300 lb and 13,280 L, gauges then 30,000 lb: gauge less meter, to the hundred',
      source: 'NASA ASRS 809545, by hand from its figures',
      unit: 'lb',
      published: -2_800,
      decimals: -2,
      compute: () => discrepancyLb(13_280, 9_300, 30_000)
    }
  ];
}

/** Fuel used between block-off and block-on: what was on board at the one less what was left at the other. */
function blockRows(): Row[] {
  const published: readonly (readonly [off: number, on: number, used: number])[] = [
    [94.5, 8.5, 86],
    [51.8, 5.8, 46],
    [32.7, 9.7, 23],
    [9.5, 4, 5.5],
    [75, 4.5, 70.5]
  ];
  return published.map(([off, on, used]) => ({
    part: 'reconciliation',
    what: `Fuel used, block-off to block-on: ${off} t less ${on} t`,
    source: icao,
    unit: 't',
    published: used,
    decimals: 1,
    compute: () => {
      // With nothing pumped the gauge uplift is departure less arrival: here what was there less what is left.
      const input = createRefuellingInput();
      const result = createRefuellingResult();
      addTicket(input, ticketOf(0));
      input.arrivalFuelKg = on * 1000;
      input.departureFuelKg = off * 1000;
      reconcileRefuelling(input, defaultArithmetic, result);
      return result.gaugeUpliftKg / 1000;
    }
  }));
}

/** A ticket of a mass that is known. */
function ticketOf(meteredMassKg: number): TicketResult {
  const ticket = createTicketResult();
  ticket.meteredMassKg = meteredMassKg;
  ticket.massUncertaintyKg = 0;
  ticket.quality = measured;
  return ticket;
}

/** Fuel used between two block-ons, method B: what was left before, less what is left now, plus the uplift. */
function balanceRows(): Row[] {
  const published: readonly (readonly [before: number, after: number, uplift: number, used: number])[] = [
    [5.5, 8.5, 89.3, 86.3],
    [8.5, 5.8, 43.3, 46],
    [5.8, 9.7, 26.9, 23],
    [9.7, 4, 0, 5.7],
    [4, 4.5, 71.7, 71.2]
  ];
  return published.map(([before, after, uplift, used]) => ({
    part: 'reconciliation',
    what: `Fuel used, block-on to block-on: ${before} t left before, ${uplift} t uplift, ${after} t left after`,
    source: icao,
    unit: 't',
    published: used,
    decimals: 1,
    compute: () => {
      // The expected departure fuel is what there was plus what the meter delivered: what is gone since was used.
      const input = createRefuellingInput();
      const result = createRefuellingResult();
      addTicket(input, ticketOf(uplift * 1000));
      input.arrivalFuelKg = before * 1000;
      input.departureFuelKg = (before + uplift) * 1000;
      reconcileRefuelling(input, defaultArithmetic, result);
      return (result.expectedDepartureKg - after * 1000) / 1000;
    }
  }));
}

function unitRows(): Row[] {
  const nist = 'NIST Handbook 44, Appendix C';
  const published: readonly (readonly [
    what: string,
    code: UnitCode,
    value: number,
    decimals: number,
    unit: string
  ])[] = [
    ['One US gallon', 'usGallon', 3.785411784, 9, 'L'],
    ['One imperial gallon', 'imperialGallon', 4.54609, 5, 'L'],
    ['One pound', 'pound', 0.45359237, 8, 'kg'],
    ['One US barrel', 'usBarrel', 158.987294928, 9, 'L']
  ];
  return published.map(([what, code, value, decimals, unit]) => ({
    part: 'units',
    what,
    source: nist,
    unit,
    published: value,
    decimals,
    compute: () => toCanonical(code, 1)
  }));
}

function checkOf({ compute, within = 0.5, ...row }: Row): MethodCheck {
  const computed = compute();
  const digit = 10 ** -row.decimals;
  // A hair more than half a unit, so that a tie of the last digit is no failure of the ninth decimal.
  return { ...row, computed, passed: Math.abs(computed - row.published) <= within * digit * (1 + 1e-9) };
}

/** Published values recomputed here and now by the functions every record goes through. */
export function methodChecks(): MethodCheck[] {
  return [
    ...factorRows(),
    ...unitRows(),
    ...gimliRows(),
    ...reportRows(),
    ...balanceRows(),
    ...blockRows()
  ].map(checkOf);
}
