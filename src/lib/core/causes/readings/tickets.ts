import { indexOf, totalOnBoard } from '#lib/core/reconciliation/index.ts';
import { causeCodes } from '../codes.ts';
import { varianceAt } from '../context.ts';
import type { CauseEvidence } from '../evidence.ts';
import type { CauseOptions } from '../options.ts';
import type { CauseProposals } from '../proposals.ts';
import { asTyped } from '../reading.ts';
import { weigh, weighFree } from '../weigh.ts';

const wrongTail = indexOf(causeCodes, 'wrongTail');
const duplicateTicket = indexOf(causeCodes, 'duplicateTicket');
const ticketMissing = indexOf(causeCodes, 'ticketMissing');

/** A ticket on another tail: what one has too much the other has too little. */
function weighOtherTail(evidence: CauseEvidence, options: CauseOptions, out: CauseProposals): void {
  const otherKg = evidence.otherTailDiscrepancyKg;
  if (!Number.isFinite(otherKg)) return;
  const reading = asTyped(out.reading, wrongTail, evidence);
  reading.meteredMassKg -= otherKg;
  reading.volumeL *= reading.meteredMassKg / evidence.meteredMassKg;
  // Meter readings and recorded mass went to the wrong tail with the ticket.
  reading.copied = 0.9;
  // The other record has a scatter of its own.
  reading.extraVariance = varianceAt(out.context, reading.meteredMassKg, reading.gaugeUpliftKg);
  reading.signs = 1 / options.chance.otherTailOpposite;
  weigh(evidence, options, out);
}

/** A whole row on another tail reconciles, but the tail cannot hold it. */
function weighTooMuch(evidence: CauseEvidence, options: CauseOptions, out: CauseProposals): void {
  if (!(evidence.departureFuelKg > evidence.capacityKg * 1.03 + out.context.slackKg)) return;
  const reading = asTyped(out.reading, wrongTail, evidence);
  reading.signs = 1 / options.chance.impossible;
  weigh(evidence, options, out);
}

function weighDuplicate(evidence: CauseEvidence, options: CauseOptions, out: CauseProposals): void {
  if (!Number.isFinite(evidence.minutesToDuplicate) || evidence.tickets < 2) return;
  const reading = asTyped(out.reading, duplicateTicket, evidence);
  const onceKg = Number.isFinite(evidence.duplicateMassKg)
    ? evidence.duplicateMassKg
    : evidence.meteredMassKg / evidence.tickets;
  reading.meteredMassKg -= onceKg;
  reading.volumeL *= reading.meteredMassKg / evidence.meteredMassKg;
  reading.signs = 1 / options.chance.sameVolumeTwice;
  weigh(evidence, options, out);
}

/** A ticket that belongs to no refuelling would make this one whole. */
function weighStray(evidence: CauseEvidence, options: CauseOptions, out: CauseProposals): void {
  if (!(evidence.strayTicketKg > 0)) return;
  const reading = asTyped(out.reading, ticketMissing, evidence);
  reading.meteredMassKg += evidence.strayTicketKg;
  reading.copied = 0.9;
  reading.signs = 1 / options.chance.strayTicket;
  weigh(evidence, options, out);
}

/**
 * The gauge met the order and the meter did not. Without such a sign a missing ticket of any size would fit every
 * record with too little metered: that is what the unknown stands for.
 */
function weighShortOfOrder(evidence: CauseEvidence, options: CauseOptions, out: CauseProposals): void {
  if (evidence.orderedBasis !== totalOnBoard || !(evidence.gaugeUpliftKg > 0)) return;
  if (!(Math.abs(evidence.departureFuelKg - evidence.orderedKg) < 3 * options.presetScatterKg)) return;
  const meteredKg = evidence.gaugeUpliftKg * Math.exp(-out.context.expected);
  const missingKg = meteredKg - evidence.meteredMassKg;
  if (!(missingKg > out.context.slackKg)) return;
  const reading = asTyped(out.reading, ticketMissing, evidence);
  reading.meteredMassKg = meteredKg;
  reading.copied = 0.9;
  // The known ticket is an even share of the whole: the density of the log ratio is that share.
  weighFree(evidence.meteredMassKg / meteredKg, evidence, options, out);
}

/** Tickets that are on the wrong refuelling, there twice, or not there. */
export function weighTickets(evidence: CauseEvidence, options: CauseOptions, out: CauseProposals): void {
  weighOtherTail(evidence, options, out);
  weighTooMuch(evidence, options, out);
  weighDuplicate(evidence, options, out);
  weighStray(evidence, options, out);
  weighShortOfOrder(evidence, options, out);
}
