import {
  causeOutcomes,
  createCauseEvidence,
  createCauseProposals,
  defaultCauseOptions,
  isSuspectedSlip,
  isWild,
  isWorthLooking,
  proposeCauses,
  signsOf,
  type CauseOptions
} from '#lib/core/causes/index.ts';
import { indexOf, reasonBits } from '#lib/core/reconciliation/index.ts';
import {
  chainSectors,
  defaultChainSettings,
  linkSectors,
  orderByCodeAndTime,
  type Chain,
  type Links,
  type SectorRows
} from '#lib/core/sequence/index.ts';
import type { Settings } from '#lib/data/settings/index.ts';
import { EvidenceReader } from './cause-evidence.ts';
import type { Computed } from './computed.ts';
import { InputReader } from './inputs.ts';
import type { SourceRows } from './rows.ts';
import { SignReader } from './sign-reader.ts';
import { Surroundings } from './surroundings.ts';

/** What was found about records that are wild or bear a sign of a fault, one entry a row; values of a refuelling stand on all its tickets. */
export interface FoundCauses {
  /** Index in `causeOutcomes` plus one; 0 where causes were not looked for. */
  readonly outcome: Uint8Array;
  /** Index in `causeCodes` plus one of the cause named or nearest; 0 where there is none. */
  readonly cause: Uint8Array;
  /** 1 where the record is a suspected slip. */
  readonly slip: Uint8Array;
}

export function causeOptions(settings: Settings): CauseOptions {
  return { ...defaultCauseOptions, edition: settings.method.arithmetic.edition };
}

/** Codes with those of rows set aside taken out: such a row stands before nothing. */
function codesInUse(codes: Uint32Array, isSetAside: (row: number) => boolean): Uint32Array {
  const used = codes.slice();
  for (let row = 0; row < used.length; row++) if (isSetAside(row)) used[row] = 0;
  return used;
}

function sectorRows(
  { columns }: SourceRows,
  computed: Computed,
  isSetAside: (row: number) => boolean
): SectorRows {
  return {
    timeMs: columns.valuesOf('time'),
    station: columns.code('station').codes(),
    tail: codesInUse(columns.code('tail').codes(), isSetAside),
    arrivalFuelKg: columns.valuesOf('arrivalFuel'),
    departureFuelKg: columns.valuesOf('departureFuel'),
    vehicle: codesInUse(columns.code('vehicle').codes(), isSetAside),
    meterStartL: columns.valuesOf('meterStart'),
    meterStopL: columns.valuesOf('meterStop'),
    volumeL: computed.volumeL
  };
}

/**
 * Ties every refuelling to the one before it on its tail, and every ticket to the one before it on its meter. Rows
 * set aside take no part.
 */
export function chainOf(
  source: SourceRows,
  computed: Computed,
  settings: Settings,
  isSetAside: (row: number) => boolean
): Chain {
  const rows = sectorRows(source, computed, isSetAside);
  return chainSectors(
    rows,
    computed.leader,
    orderByCodeAndTime(rows.tail, rows.timeMs),
    orderByCodeAndTime(rows.vehicle, rows.timeMs),
    { ...defaultChainSettings, windowMinutes: settings.method.joinMinutes }
  );
}

/** The ties alone, without what does not follow. */
function linksOf(source: SourceRows, computed: Computed, isSetAside: (row: number) => boolean): Links {
  const rows = sectorRows(source, computed, isSetAside);
  return linkSectors(
    rows,
    computed.leader,
    orderByCodeAndTime(rows.tail, rows.timeMs),
    orderByCodeAndTime(rows.vehicle, rows.timeMs)
  );
}

/** For the leader of each refuelling of several tickets: its tickets, itself first. */
function severalTickets(leader: Int32Array): Map<number, number[]> {
  const found = new Map<number, number[]>();
  for (let row = 0; row < leader.length; row++) {
    const first = leader[row] as number;
    if (first === row) continue;
    const rows = found.get(first);
    if (rows === undefined) found.set(first, [first, row]);
    else rows.push(row);
  }
  return found;
}

/** Whether a refuelling is one whose metered side no gauge reading answers. */
export function lacksGauges(computed: Computed, row: number): boolean {
  const bits = reasonBits.arrivalFuelMissing | reasonBits.departureFuelMissing;
  return ((computed.reasons[row] ?? 0) & bits) === bits;
}

/**
 * Looks for a cause of every record that is wild or bears a decisive sign, and says which are suspected slips. A
 * cheap test is made of every record; evidence is gathered only for those.
 */
export function findCauses(
  source: SourceRows,
  computed: Computed,
  settings: Settings,
  isSetAside: (row: number) => boolean
): FoundCauses {
  const { rowCount } = source;
  const found: FoundCauses = {
    outcome: new Uint8Array(rowCount),
    cause: new Uint8Array(rowCount),
    slip: new Uint8Array(rowCount)
  };
  const options = causeOptions(settings);
  const evidence = createCauseEvidence();
  const surroundings = new Surroundings(source, computed);
  const signs = new SignReader(source, computed, settings);
  const wild: number[] = [];
  const signed: number[] = [];
  for (let row = 0; row < rowCount; row++) {
    if (computed.leader[row] !== row || isSetAside(row)) continue;
    signs.read(row, evidence);
    const isWildRow = isWild(evidence, options);
    if (isWildRow) wild.push(row);
    else if (isWorthLooking(signsOf(evidence, options), evidence)) signed.push(row);
    if (isWildRow || lacksGauges(computed, row)) surroundings.put(row);
  }
  if (wild.length + signed.length === 0) return found;
  const reader = new EvidenceReader(
    new InputReader(source, settings),
    computed,
    settings.method.arithmetic,
    linksOf(source, computed, isSetAside)
  );
  const several = severalTickets(computed.leader);
  const proposals = createCauseProposals();
  const nothingWrong = indexOf(causeOutcomes, 'nothingWrong');
  const named = indexOf(causeOutcomes, 'named');
  const firstSigned = wild.length;
  for (const [i, row] of wild.concat(signed).entries()) {
    const tickets = several.get(row) ?? [row];
    reader.read(row, tickets, surroundings.around(row), evidence);
    proposeCauses(evidence, options, proposals);
    // Where the halves agree only a name needs saying.
    if (i >= firstSigned && proposals.outcome !== named) continue;
    const slip = isSuspectedSlip(evidence, options, proposals) ? 1 : 0;
    for (const ticket of tickets) {
      found.outcome[ticket] = proposals.outcome + 1;
      found.cause[ticket] = proposals.outcome === nothingWrong ? 0 : proposals.cause + 1;
      found.slip[ticket] = slip;
    }
  }
  return found;
}
