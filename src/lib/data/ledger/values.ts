import {
  codesIn,
  densityCases,
  marks,
  qualities,
  reasons,
  verdicts
} from '#lib/core/reconciliation/index.ts';
import { causeCodes, causeOutcomes } from '#lib/core/causes/index.ts';
import {
  fieldNamed,
  splitKey,
  upliftFields,
  type ColumnKey,
  type ComputedName
} from '#lib/data/record/index.ts';
import type { Settings } from '#lib/data/settings/index.ts';
import { addressText } from './address.ts';
import type { Ledger } from './ledger.ts';
import { limitChecks } from './limit-checks.ts';

/**
 * A value of a record: a number (NaN missing, times in ms UTC) or a text ('' missing). Coded values are given as
 * their codes, several joined by a blank; `data/words` turns them into words.
 */
export type RecordValue = number | string;
export type ValueReader = (row: number) => RecordValue;

/** Keys of the source columns in hand, in record-list order, members of a family by name. */
export function sourceKeys(ledger: Ledger): ColumnKey[] {
  const present = ledger.source.columns.keys();
  return upliftFields.flatMap((field) => {
    const isFamily = field.kind === 'number' && 'family' in field;
    if (!isFamily) return [field.name];
    const members = present.filter((key) => key.startsWith(`${field.name}:`)).sort();
    return members.map((key): ColumnKey => `${field.name}:${splitKey(key).member ?? ''}`);
  });
}

/** Reads one source column; a column no file had is missing on every row. */
export function sourceReader(ledger: Ledger, key: ColumnKey): ValueReader {
  const column = ledger.source.columns.get(key);
  if (column === undefined) {
    const { kind } = fieldNamed(splitKey(key).name);
    const missing = kind === 'number' || kind === 'time' ? NaN : '';
    return () => missing;
  }
  if (column.kind === 'number') {
    const values = column.values();
    return (row) => values[row] ?? NaN;
  }
  if (column.kind === 'code') return (row) => column.text(row);
  return (row) => column.at(row);
}

function percentReader(part: Float64Array, whole: Float64Array): ValueReader {
  return (row) => {
    const base = whole[row] ?? NaN;
    return base > 0 ? (100 * (part[row] ?? NaN)) / base : NaN;
  };
}

function marksOf(ledger: Ledger, row: number): string {
  const found = [
    ...codesIn(marks, ledger.computed.marks[row] ?? 0),
    ...codesIn(limitChecks, ledger.verdicts.checks[row] ?? 0)
  ];
  return found.join(' ');
}

function qualityOf(ledger: Ledger, row: number): string {
  const quality = qualities[ledger.computed.quality[row] ?? 0] ?? 'notReconcilable';
  if (quality === 'measured') return quality;
  return [quality, ...codesIn(reasons, ledger.computed.reasons[row] ?? 0)].join(' ');
}

/** The outcome of the search for a cause and, where one is named, its code; '' where none was looked for. */
function likelyCauseOf(ledger: Ledger, row: number): string {
  const outcome = causeOutcomes[(ledger.causes.outcome[row] ?? 0) - 1];
  if (outcome === undefined || outcome === 'nothingWrong') return '';
  return outcome === 'named' ? (causeCodes[(ledger.causes.cause[row] ?? 0) - 1] ?? '') : outcome;
}

/**
 * Reads one computed column. Values of a refuelling stand on the ticket that leads it and are missing on its other
 * tickets, so that a column can be added up.
 */
export function computedReader(ledger: Ledger, name: ComputedName, settings: Settings): ValueReader {
  const { computed, verdicts: judged, source } = ledger;
  const onLeader = (reader: ValueReader, missing: RecordValue): ValueReader => {
    return (row) => (computed.leader[row] === row ? reader(row) : missing);
  };
  const number = (values: Float64Array) => onLeader((row) => values[row] ?? NaN, NaN);
  const setOf = (row: number) => settings.limitSets[(judged.limitSet[row] ?? 0) - 1];
  const readers: Record<ComputedName, ValueReader> = {
    refuelling: (row) => addressText(source.addressOf(computed.leader[row] ?? row)),
    densityCase: (row) => densityCases[computed.densityCase[row] ?? 0] ?? 'none',
    density15: (row) => computed.density15KgM3[row] ?? NaN,
    meteredMass: (row) => computed.meteredMassKg[row] ?? NaN,
    gaugeUplift: number(computed.gaugeUpliftKg),
    discrepancy: number(computed.discrepancyKg),
    discrepancyPercent: onLeader(percentReader(computed.discrepancyKg, computed.refuellingMassKg), NaN),
    discrepancyPercentOfBase: onLeader(percentReader(computed.discrepancyKg, judged.limitBaseKg), NaN),
    limitBase: onLeader((row) => setOf(row)?.base ?? '', ''),
    limit: number(judged.limitKg),
    limitSet: onLeader((row) => setOf(row)?.name ?? '', ''),
    limitRevision: onLeader((row) => setOf(row)?.revision ?? NaN, NaN),
    expectedDeparture: number(computed.expectedDepartureKg),
    en: onLeader((row) => (computed.discrepancyKg[row] ?? NaN) / (computed.uncertaintyKg[row] ?? NaN), NaN),
    verdict: onLeader((row) => verdicts[judged.verdict[row] ?? 0] ?? 'notJudged', ''),
    quality: (row) => qualityOf(ledger, row),
    marks: (row) => marksOf(ledger, row),
    likelyCause: onLeader((row) => likelyCauseOf(ledger, row), ''),
    sourceFile: (row) => source.fileOf(row).name,
    sourceLine: (row) => source.addressOf(row).line,
    sourceSha256: (row) => source.fileOf(row).sha256
  };
  return readers[name];
}
