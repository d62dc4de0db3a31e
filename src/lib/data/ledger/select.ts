import { marks, qualities, verdicts } from '#lib/core/reconciliation/index.ts';
import { checkStates, fieldsOfKind } from '#lib/data/record/index.ts';
import type { CodeColumn } from '#lib/data/columns/index.ts';
import type { RecordFilter } from './filter.ts';
import type { Ledger } from './ledger.ts';
import { limitChecks } from './limit-checks.ts';

const dayMs = 86_400_000;

/** Rows that a filter lets through, in row order, and those of them that count for a refuelling. */
export interface Selection {
  readonly rows: Uint32Array;
  readonly refuellings: Uint32Array;
}

/** A clause over small codes: a row passes where `allowed[codes[row]]` is 1. */
interface CodeClause {
  readonly codes: ArrayLike<number>;
  readonly allowed: Uint8Array;
}

/** A clause over bits: a row passes where it has one of them. */
interface BitClause {
  readonly bits: Uint32Array | Uint16Array;
  readonly mask: number;
}

function allowedNames(column: CodeColumn, names: readonly string[]): Uint8Array {
  const allowed = new Uint8Array(column.dictionary.size);
  for (const name of names) {
    const code = column.dictionary.find(name);
    if (code !== undefined) allowed[code] = 1;
  }
  return allowed;
}

function allowedIndexes<Code extends string>(list: readonly Code[], chosen: readonly Code[]): Uint8Array {
  return Uint8Array.from(list, (code) => (chosen.includes(code) ? 1 : 0));
}

function codeClauses(ledger: Ledger, filter: RecordFilter): CodeClause[] {
  const clauses: CodeClause[] = [];
  for (const name of fieldsOfKind('name')) {
    const names = filter.names?.[name] ?? [];
    if (names.length === 0) continue;
    const column = ledger.source.columns.code(name);
    clauses.push({ codes: column.codes(), allowed: allowedNames(column, names) });
  }
  if ((filter.verdicts ?? []).length > 0) {
    clauses.push({
      codes: ledger.verdicts.verdict,
      allowed: allowedIndexes(verdicts, filter.verdicts ?? [])
    });
  }
  if ((filter.qualities ?? []).length > 0) {
    clauses.push({
      codes: ledger.computed.quality,
      allowed: allowedIndexes(qualities, filter.qualities ?? [])
    });
  }
  return clauses;
}

function maskOf(list: readonly string[], chosen: readonly string[]): number {
  return list.reduce((mask, code, bit) => (chosen.includes(code) ? mask | (1 << bit) : mask), 0);
}

/** The columns of the checks of which one must have failed. */
function failedColumns(ledger: Ledger, filter: RecordFilter): Uint32Array[] {
  return (filter.failed ?? []).map((name) => ledger.source.columns.code(name).codes());
}

/** The code of the one station a filter asks for, -1 where it asks for none or several. */
function onlyStation(ledger: Ledger, filter: RecordFilter): number {
  const [name, ...others] = filter.names?.station ?? [];
  if (name === undefined || others.length > 0) return -1;
  return ledger.source.columns.code('station').dictionary.find(name) ?? -1;
}

/** Rows that may pass, ascending: only those of the period and of the station, where the rows' order tells. */
function candidates(ledger: Ledger, filter: RecordFilter, fromMs: number, untilMs: number): Uint32Array[] {
  const ranges = ledger.index.ranges(fromMs, untilMs);
  const station = onlyStation(ledger, filter);
  if (station >= 0) return ledger.index.ofStation(station, ranges);
  return ranges.map(({ first, end }) => {
    const rows = new Uint32Array(end - first);
    for (let i = 0; i < rows.length; i++) rows[i] = first + i;
    return rows;
  });
}

/** Rows a filter lets through. One pass over the rows that may; nothing is made per row. */
export function select(ledger: Ledger, filter: RecordFilter): Selection {
  const clauses = codeClauses(ledger, filter);
  const chosenMarks = filter.marks ?? [];
  const markClause: BitClause = { bits: ledger.computed.marks, mask: maskOf(marks, chosenMarks) };
  const checkClause: BitClause = { bits: ledger.verdicts.checks, mask: maskOf(limitChecks, chosenMarks) };
  const failed = failedColumns(ledger, filter);
  const failedCode = checkStates.indexOf('failed');
  const times = ledger.source.columns.valuesOf('time');
  const from = filter.fromDay === undefined ? -Infinity : Date.parse(filter.fromDay);
  const until = filter.untilDay === undefined ? Infinity : Date.parse(filter.untilDay) + dayMs;
  const { leader } = ledger.computed;
  const parts = candidates(ledger, filter, from, until);
  const { aside } = ledger;
  const most = parts.reduce((sum, { length }) => sum + length, 0);
  const rows = new Uint32Array(most);
  const refuellings = new Uint32Array(most);
  let rowTotal = 0;
  let refuellingTotal = 0;
  for (const part of parts) {
    rows: for (let i = 0; i < part.length; i++) {
      const row = part[i] as number;
      const time = times[row] as number;
      if (!(time >= from && time < until) || aside[row] !== 0) continue;
      for (let c = 0; c < clauses.length; c++) {
        const clause = clauses[c];
        if (clause !== undefined && clause.allowed[clause.codes[row] ?? 0] !== 1) continue rows;
      }
      if (chosenMarks.length > 0) {
        const marked =
          ((markClause.bits[row] ?? 0) & markClause.mask) | ((checkClause.bits[row] ?? 0) & checkClause.mask);
        if (marked === 0) continue;
      }
      if (failed.length > 0 && !failed.some((codes) => codes[row] === failedCode)) continue;
      rows[rowTotal++] = row;
      if (leader[row] === row) refuellings[refuellingTotal++] = row;
    }
  }
  return { rows: rows.slice(0, rowTotal), refuellings: refuellings.slice(0, refuellingTotal) };
}
