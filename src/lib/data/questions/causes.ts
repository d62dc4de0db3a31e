import {
  causeCodes,
  causeFacts,
  causeFigures,
  causeOutcomes,
  causeSigns,
  createCauseEvidence,
  createCauseProposals,
  discrepancyIf,
  isWild,
  percentIf,
  proposeCauses,
  signsOf,
  type CauseCode,
  type CauseEvidence,
  type CauseFigure,
  type CauseOutcome,
  type CauseProposals,
  type CauseSign
} from '#lib/core/causes/index.ts';
import { codesIn } from '#lib/core/reconciliation/index.ts';
import {
  causeOptions,
  chainOf,
  EvidenceReader,
  InputReader,
  lacksGauges,
  Surroundings
} from '#lib/data/ledger/index.ts';
import type { Chain } from '#lib/core/sequence/index.ts';
import { limitsAt } from '#lib/data/settings/index.ts';
import type { QuestionContext } from './context.ts';

/** One thing that, if it alone were wrong, would explain a record. */
export interface FittingCause {
  readonly code: CauseCode;
  /** Share of the evidence for it, 0 to 1. */
  readonly share: number;
  /** What the discrepancy would be if it were undone. */
  readonly discrepancyKg: number;
  readonly percent: number;
  /** The figure it changed, as it stands and as it would have been: L, kg, kg/m³ or °C; NaN where it is none. */
  readonly figure: CauseFigure;
  readonly figureTyped: number;
  readonly figureValue: number;
  /** One of several that cannot be told apart. */
  readonly inGroup: boolean;
  readonly looksLike: readonly string[];
}

/** What one record would fit. Proposals: nothing is corrected by them. */
export interface RecordCauses {
  readonly outcome: CauseOutcome;
  readonly nothingWrong: number;
  readonly unknown: number;
  readonly causes: readonly FittingCause[];
  readonly signs: readonly CauseSign[];
}

/** What looking around a record needs, made once for the ledger as it stands. */
export interface RecordSurroundings {
  readonly chain: Chain;
  readonly reader: EvidenceReader;
  readonly surroundings: Surroundings;
}

const kept = new WeakMap<QuestionContext, RecordSurroundings>();

export function surroundingsOf(context: QuestionContext): RecordSurroundings {
  const known = kept.get(context);
  if (known !== undefined) return known;
  const { ledger, settings } = context;
  const { source, computed, causes } = ledger;
  const chain = chainOf(source, computed, settings, (row) => ledger.isSetAside(row));
  const surroundings = new Surroundings(source, computed);
  causes.outcome.forEach((outcome, row) => {
    if (computed.leader[row] !== row || ledger.isSetAside(row)) return;
    if (outcome > 0 || lacksGauges(computed, row)) surroundings.put(row);
  });
  const reader = new EvidenceReader(
    new InputReader(source, settings),
    computed,
    settings.method.arithmetic,
    chain
  );
  const made = { chain, reader, surroundings };
  kept.set(context, made);
  return made;
}

/** Causes shown at the most: the tail of a posterior is noise. */
const mostShown = 6;
const leastShare = 0.02;

/** A figure as it stands in the record. */
function typedOf(figure: CauseFigure, evidence: CauseEvidence): number {
  const firstOf = (a: number, b: number) => (Number.isFinite(a) ? a : b);
  switch (figure) {
    case 'none':
      return NaN;
    case 'volume':
      return firstOf(evidence.meteredTyped, evidence.volumeL);
    case 'arrivalFuel':
      return evidence.arrivalFuelKg;
    case 'departureFuel':
      return evidence.departureFuelKg;
    case 'defuelled':
      return evidence.defuelledKg;
    case 'density':
      return firstOf(evidence.observedDensityKgM3, evidence.ticketDensity15KgM3);
    case 'temperature':
      return firstOf(evidence.sampleTemperatureC, evidence.meterTemperatureC);
  }
}

function fittingOf(proposals: CauseProposals, evidence: CauseEvidence): FittingCause[] {
  const figureOf = (cause: number) => causeFigures[proposals.figure[cause] ?? 0] ?? 'none';
  const all = causeCodes.map((code, cause): FittingCause => ({
    code,
    share: proposals.posterior[cause] ?? 0,
    discrepancyKg: discrepancyIf(proposals, cause),
    percent: percentIf(proposals, cause),
    figure: figureOf(cause),
    figureTyped: typedOf(figureOf(cause), evidence),
    figureValue: proposals.figureValue[cause] ?? NaN,
    inGroup: proposals.group[cause] === 1,
    looksLike: causeFacts[code].looksLike
  }));
  return all
    .filter(({ share }) => share >= leastShare)
    .sort((p, q) => q.share - p.share)
    .slice(0, mostShown);
}

/** What would explain the refuelling led by a row, whether or not it is wild. */
export function causesOf(context: QuestionContext, leader: number, tickets: readonly number[]): RecordCauses {
  const options = causeOptions(context.settings);
  const { reader, surroundings } = surroundingsOf(context);
  const evidence = createCauseEvidence();
  const proposals = createCauseProposals();
  reader.read(leader, tickets, surroundings.around(leader), evidence);
  const timeMs = context.ledger.source.columns.valuesOf('time')[leader] ?? NaN;
  evidence.imbalanceLimitKg = limitsAt(context.settings.limitSets, timeMs)?.imbalanceKg ?? NaN;
  proposeCauses(evidence, options, proposals);
  const outcome = causeOutcomes[proposals.outcome] ?? 'unknown';
  // What is within its scatter needs no explanation, however near to a half-likely digit slip it lies.
  const isSettled = outcome === 'named' || isWild(evidence, options);
  return {
    outcome: isSettled ? outcome : 'nothingWrong',
    nothingWrong: proposals.nothingWrong,
    unknown: proposals.unknown,
    causes: fittingOf(proposals, evidence),
    signs: codesIn(causeSigns, signsOf(evidence, options))
  };
}
