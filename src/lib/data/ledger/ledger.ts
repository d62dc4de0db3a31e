import type { ColumnSet } from '#lib/data/columns/index.ts';
import { defaultSettings, type Settings } from '#lib/data/settings/index.ts';
import { addressFrom } from './address.ts';
import { createComputed, type Computed } from './computed.ts';
import { derive } from './derive.ts';
import { findCauses, type FoundCauses } from './find-causes.ts';
import { asideReasons, findDuplicates, type AsideReason } from './duplicates.ts';
import { isCounted, judgeRecords } from './judge-records.ts';
import { mergeNames } from './merge-names.ts';
import { RowIndex } from './row-index.ts';
import { SourceRows } from './rows.ts';
import { createVerdicts, type Verdicts } from './verdicts.ts';

const noneComputed = createComputed(0, { tanks: false, recordedUplift: false, recordedDiscrepancy: false });
const noVerdicts = createVerdicts(0);

/**
 * The columns of all uplifts in hand: those read, those the arithmetic made of them and, apart, those that a change
 * of limits rewrites. After rows come or go `recompute` must be called before anything is asked.
 */
export class Ledger {
  readonly source = new SourceRows();
  #settings: Settings = defaultSettings;
  #computed: Computed = noneComputed;
  #verdicts: Verdicts = noVerdicts;
  #causes: FoundCauses = { outcome: new Uint8Array(0), cause: new Uint8Array(0), slip: new Uint8Array(0) };
  /** Index in `asideReasons` per row, 0 where the row is used. */
  #aside: Uint8Array = new Uint8Array(0);
  #index: RowIndex | null = null;

  get rowCount(): number {
    return this.#computed.rowCount;
  }

  get computed(): Computed {
    return this.#computed;
  }

  get causes(): FoundCauses {
    return this.#causes;
  }

  get verdicts(): Verdicts {
    return this.#verdicts;
  }

  /** Where rows of a period or station stand; made when first asked for. */
  get index(): RowIndex {
    return (this.#index ??= new RowIndex(this.source));
  }

  append(file: { id: string; name: string; sha256: string }, batch: ColumnSet): void {
    this.source.append(file, batch);
  }

  remove(fileId: string): void {
    this.source.remove(fileId);
  }

  /**
   * Redoes duplicates, masses, groups and verdicts. `undone`: addresses of refuellings whose tickets a person took
   * apart; `recovered`: addresses of records set aside that a person took back.
   */
  recompute(settings: Settings, undone: readonly string[], recovered: readonly string[]): void {
    this.#settings = settings;
    this.#index = null;
    // Let go first: the old columns and the new would stand beside each other.
    this.#computed = noneComputed;
    this.#verdicts = noVerdicts;
    mergeNames(this.source.columns, settings.mergedNames);
    const back = this.#rowsAt(recovered);
    this.#aside = findDuplicates(this.source, (row) => back.has(row));
    this.#computed = derive(this.source, settings, (row) => this.isSetAside(row), this.#rowsAt(undone));
    this.#causes = findCauses(this.source, this.#computed, settings, (row) => this.isSetAside(row));
    this.rejudge(settings);
  }

  #rowsAt(addresses: readonly string[]): Set<number> {
    const rows = new Set<number>();
    for (const text of addresses) {
      const address = addressFrom(text);
      const row = address === null ? -1 : this.source.rowAt(address);
      if (row >= 0) rows.add(row);
    }
    return rows;
  }

  /** Redoes the verdicts alone: masses do not hang on limits. */
  rejudge(settings: Settings): void {
    this.#settings = settings;
    this.#verdicts = judgeRecords(this.source, this.#computed, this.#causes.slip, settings);
  }

  /** Per row 0 where it is used, else what sets it aside. */
  get aside(): Uint8Array {
    return this.#aside;
  }

  isSetAside(row: number): boolean {
    return this.#aside[row] !== 0;
  }

  /** Why a row is set aside, null where it is not. */
  asideReason(row: number): AsideReason | null {
    const reason = asideReasons[this.#aside[row] ?? 0] ?? '';
    return reason === '' ? null : reason;
  }

  /** True where a row's quality lets it into verdicts, rates and means. */
  counts(row: number): boolean {
    return isCounted(this.#computed, row, this.#settings);
  }

  /** Rows of the tickets of a refuelling, the one that leads it first. */
  ticketsOf(leader: number): number[] {
    const rows = [leader];
    // Tickets of one refuelling may stand in different files, so all rows are asked.
    this.#computed.leader.forEach((first, row) => {
      if (first === leader && row !== leader) rows.push(row);
    });
    return rows;
  }
}
