import { type CauseEvidence, createCauseEvidence } from '#lib/core/causes/index.ts';
import { density15, densityAt } from '#lib/core/density/index.ts';
import {
  addTicket,
  amountToAdd,
  createRefuellingInput,
  createRefuellingResult,
  createTicketInput,
  createTicketResult,
  defaultMethod,
  reconcileRefuelling,
  reconcileTicket,
  totalOnBoard
} from '#lib/core/reconciliation/index.ts';
import type { Random } from './random.ts';

/** One refuelling as its papers show it, before or after something was typed wrong. */
export interface Papers {
  trueMassKg: number;
  volumeL: number;
  netVolumeL: number;
  densityKgM3: number;
  ticketDensity15KgM3: number;
  certificateKgM3: number;
  sampleC: number;
  meterC: number;
  arrivalKg: number;
  departureKg: number;
  burnKg: number;
  defuelledKg: number;
  stepKg: number;
  previousDepartureKg: number;
  nextArrivalKg: number;
  previousVolumeL: number;
  startL: number;
  stopL: number;
  previousStopL: number;
  registerL: number;
  orderedKg: number;
  orderedBasis: number;
  recordedKg: number;
  tanksKg: number;
  leftKg: number;
  rightKg: number;
  capacityKg: number;
  /** A second ticket on the same refuelling, litres. */
  secondVolumeL: number;
  minutesToDuplicate: number;
  otherTailDiscrepancyKg: number;
  strayTicketKg: number;
}

export const scatter = 0.012;
export const noiseKg = 60;

const round = (value: number, step: number): number => Math.round(value / step) * step;
const oneOf = (random: Random, list: readonly number[]): number => list[random.below(list.length)] ?? NaN;

/** Order: kept within some 90 kg, except where it was changed late; sometimes met to the last digit. */
function order(random: Random, departureKg: number, massKg: number, papers: Papers): void {
  if (!random.chance(0.6)) return;
  papers.orderedBasis = random.chance(0.7) ? totalOnBoard : amountToAdd;
  const endKg = papers.orderedBasis === totalOnBoard ? departureKg : massKg;
  const sign = random.chance(0.5) ? 1 : -1;
  const changedKg = random.chance(0.15) ? -Math.log(1 - random.uniform()) * 0.12 * massKg * sign : 0;
  papers.orderedKg = round(endKg + 90 * random.normal() + changedKg, 100);
}

function tanks(random: Random, papers: Papers): void {
  if (!random.chance(0.3)) return;
  const leftKg = papers.departureKg / 2 + 0.01 * papers.departureKg * random.normal();
  papers.leftKg = round(leftKg, papers.stepKg);
  papers.rightKg = round(papers.departureKg - leftKg, papers.stepKg);
  papers.tanksKg = papers.leftKg + papers.rightKg;
}

function meter(random: Random, papers: Papers): void {
  papers.previousVolumeL = Math.round(8000 * Math.exp(0.5 * random.normal()));
  papers.registerL = oneOf(random, [1e6, 1e7, NaN]);
  if (!random.chance(0.6)) return;
  papers.startL = Math.round(100000 + 800000 * random.uniform());
  papers.stopL = papers.startL + papers.volumeL;
  papers.previousStopL = random.chance(0.8) ? papers.startL : NaN;
}

/** A refuelling with nothing wrong: gauge and meter differ by the scatter above. */
export function cleanPapers(random: Random): Papers {
  const massKg = Math.min(13000, Math.max(1500, 6400 * Math.exp(0.45 * random.normal())));
  const fuel15 = Math.min(839, Math.max(776, 803 + 12 * random.normal()));
  const meterC = Math.min(40, Math.round(10 * (14 + 9 * random.normal())) / 10);
  const sampleC = random.chance(0.4) ? meterC : Math.round(10 * (meterC + 1.5 * random.normal())) / 10;
  const densityAtMeter = densityAt(fuel15, meterC, '1980');
  const stepKg = oneOf(random, [10, 20, 100]);
  const arrivalKg = round(1800 + 3500 * random.uniform(), stepKg);
  const burnKg = random.chance(0.5) ? round(100 * random.uniform(), 10) : NaN;
  const upliftKg = massKg * Math.exp(scatter * random.normal()) + noiseKg * random.normal();
  const departureKg = round(arrivalKg + upliftKg - (Number.isNaN(burnKg) ? 0 : burnKg), stepKg);
  const volumeL = Math.round((1000 * massKg) / densityAtMeter);
  const papers: Papers = {
    trueMassKg: massKg,
    volumeL,
    netVolumeL: random.chance(0.2) ? Math.round((volumeL * densityAtMeter) / fuel15) : NaN,
    densityKgM3: Math.round(10 * densityAt(fuel15, sampleC, '1980')) / 10,
    ticketDensity15KgM3: NaN,
    certificateKgM3: random.chance(0.6) ? Math.round(10 * (fuel15 + 0.7 * random.normal())) / 10 : NaN,
    sampleC,
    meterC,
    arrivalKg,
    departureKg,
    burnKg,
    defuelledKg: NaN,
    stepKg,
    previousDepartureKg: random.chance(0.9) ? round(arrivalKg + 2500 + 8000 * random.uniform(), stepKg) : NaN,
    nextArrivalKg: random.chance(0.9) ? round(departureKg * (0.2 + 0.5 * random.uniform()), stepKg) : NaN,
    previousVolumeL: NaN,
    startL: NaN,
    stopL: NaN,
    previousStopL: NaN,
    registerL: NaN,
    orderedKg: NaN,
    orderedBasis: 0,
    recordedKg: random.chance(0.4) ? Math.round(massKg) : NaN,
    tanksKg: NaN,
    leftKg: NaN,
    rightKg: NaN,
    capacityKg: random.chance(0.8) ? 20000 : NaN,
    secondVolumeL: NaN,
    minutesToDuplicate: NaN,
    otherTailDiscrepancyKg: NaN,
    strayTicketKg: NaN
  };
  // Refuelled again without having flown.
  if (random.chance(0.01)) papers.arrivalKg = papers.previousDepartureKg = arrivalKg;
  order(random, departureKg, massKg, papers);
  tanks(random, papers);
  meter(random, papers);
  return papers;
}

const ticket = createTicketInput();
const ticketResult = createTicketResult();

function readTicket(papers: Papers, volumeL: number): void {
  ticket.grossVolumeL = volumeL;
  ticket.netVolumeL = papers.netVolumeL;
  ticket.meterStartL = papers.startL;
  ticket.meterStopL = papers.stopL;
  ticket.observedDensityKgM3 = papers.densityKgM3;
  ticket.sampleTemperatureC = papers.sampleC;
  ticket.meterTemperatureC = papers.meterC;
  ticket.ticketDensity15KgM3 = papers.ticketDensity15KgM3;
  ticket.certificateDensity15KgM3 = papers.certificateKgM3;
  reconcileTicket(ticket, defaultMethod, ticketResult);
}

/** The papers reconciled by the program's own arithmetic, as evidence. */
export function evidenceOf(papers: Papers): CauseEvidence {
  const input = createRefuellingInput();
  const result = createRefuellingResult();
  readTicket(papers, papers.volumeL);
  addTicket(input, ticketResult);
  const { volumeL, densityAtMeterKgM3 } = ticketResult;
  let duplicateMassKg = NaN;
  if (papers.secondVolumeL > 0) {
    readTicket(papers, papers.secondVolumeL);
    addTicket(input, ticketResult);
    duplicateMassKg = ticketResult.meteredMassKg;
  }
  input.arrivalFuelKg = papers.arrivalKg;
  input.departureFuelKg = papers.departureKg;
  input.groundBurnKg = papers.burnKg;
  input.defuelledKg = papers.defuelledKg;
  input.gaugeCapacityKg = papers.capacityKg;
  reconcileRefuelling(input, defaultMethod, result);
  const isOne = input.tickets === 1;
  return {
    ...createCauseEvidence(),
    tickets: input.tickets,
    meteredMassKg: result.meteredMassKg,
    gaugeUpliftKg: result.gaugeUpliftKg,
    meteredTyped: isOne ? papers.volumeL : NaN,
    volumeL: isOne ? volumeL : papers.volumeL + papers.secondVolumeL,
    netVolumeL: papers.netVolumeL,
    densityAtMeterKgM3,
    observedDensityKgM3: papers.densityKgM3,
    ticketDensity15KgM3: papers.ticketDensity15KgM3,
    certificateDensity15KgM3: papers.certificateKgM3,
    sampleTemperatureC: papers.sampleC,
    meterTemperatureC: papers.meterC,
    arrivalFuelKg: papers.arrivalKg,
    departureFuelKg: papers.departureKg,
    groundBurnKg: papers.burnKg,
    defuelledKg: papers.defuelledKg,
    gaugeStepKg: papers.stepKg,
    previousDepartureKg: papers.previousDepartureKg,
    nextArrivalKg: papers.nextArrivalKg,
    previousVolumeL: papers.previousVolumeL,
    meterStartL: isOne ? papers.startL : NaN,
    meterStopL: isOne ? papers.stopL : NaN,
    previousMeterStopL: isOne ? papers.previousStopL : NaN,
    meterRegisterL: papers.registerL,
    orderedKg: papers.orderedKg,
    orderedBasis: papers.orderedBasis,
    recordedUpliftKg: papers.recordedKg,
    tanksAfterKg: papers.tanksKg,
    leftAfterKg: papers.leftKg,
    rightAfterKg: papers.rightKg,
    capacityKg: papers.capacityKg,
    imbalanceLimitKg: 0.05 * papers.capacityKg,
    expectedLogRatio: 0,
    relativeScatter: scatter,
    noiseKg,
    ownUncertaintyKg: result.expandedUncertaintyKg / 2,
    minutesToDuplicate: papers.minutesToDuplicate,
    duplicateMassKg,
    otherTailDiscrepancyKg: papers.otherTailDiscrepancyKg,
    strayTicketKg: papers.strayTicketKg
  };
}

/** Density at 15 C the papers claim, for slips that need it. */
export const fuel15Of = (papers: Papers): number => density15(papers.densityKgM3, papers.sampleC, '1980');
