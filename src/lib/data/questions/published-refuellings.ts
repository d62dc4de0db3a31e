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
import { toCanonical } from '#lib/core/units/index.ts';
import type { PublishedRow } from './published-row.ts';

const gimli = 'Board of Inquiry, Gimli accident of 1983, final report 1985 (as cited in several accounts)';
const icao = 'ICAO Doc 9501 Vol. IV, 1st edition 2018, Table 3-4';

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

function gimliRows(): PublishedRow[] {
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
function reportRows(): PublishedRow[] {
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
function blockRows(): PublishedRow[] {
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
function balanceRows(): PublishedRow[] {
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

/** Refuellings and fuel balances of published cases. */
export function refuellingRows(): PublishedRow[] {
  return [...gimliRows(), ...reportRows(), ...balanceRows(), ...blockRows()];
}
