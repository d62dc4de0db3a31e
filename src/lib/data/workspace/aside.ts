import type { Account, RecordFate } from '#lib/data/intake/index.ts';
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

/** The account with those records counted as set aside: they were read well, but are not used. */
export function withAside(account: Account, aside: readonly RecordFate[]): Account {
  const { counts } = account;
  if (aside.length === 0) return account;
  return {
    ...account,
    counts: { ...counts, used: counts.used - aside.length, setAside: counts.setAside + aside.length },
    records: [...account.records, ...aside].sort((a, b) => a.line - b.line)
  };
}
