import type { Account, FateCounts, RecordFate } from '#lib/data/intake/index.ts';
import type { Ledger } from '#lib/data/ledger/index.ts';
import { reasonWords } from '#lib/data/words/index.ts';

/** The records of a file that the ledger set aside, as its account lists them. */
export function asideOf(ledger: Ledger, fileId: string): RecordFate[] {
  const file = ledger.source.files.find(({ id }) => id === fileId);
  if (file === undefined) return [];
  const found: RecordFate[] = [];
  for (let row = file.firstRow; row < file.firstRow + file.rowCount; row++) {
    const code = ledger.asideReason(row);
    if (code === null) continue;
    const { line } = ledger.source.addressOf(row);
    found.push({ line, fate: 'setAside', code, column: null, value: null, words: reasonWords[code] });
  }
  return found;
}

/** How many records of each file the ledger set aside, by file. */
export function asideCounts(ledger: Ledger): Map<string, number> {
  const counts = new Map<string, number>();
  for (const { id, firstRow, rowCount } of ledger.source.files) {
    let count = 0;
    for (let row = firstRow; row < firstRow + rowCount; row++) if (ledger.asideReason(row) !== null) count++;
    counts.set(id, count);
  }
  return counts;
}

/** The counts of a file of whose used records so many were set aside after all. */
export function countsWithAside(counts: Readonly<FateCounts>, aside: number): FateCounts {
  return { ...counts, used: counts.used - aside, setAside: counts.setAside + aside };
}

/** The account with those records counted as set aside: they were read well, but are not used. */
export function withAside(account: Account, aside: readonly RecordFate[]): Account {
  if (aside.length === 0) return account;
  return {
    ...account,
    counts: countsWithAside(account.counts, aside.length),
    records: [...account.records, ...aside].sort((a, b) => a.line - b.line)
  };
}
