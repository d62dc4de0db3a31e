import { describe, expect, it } from 'vitest';
import { addressText, Ledger, select } from '#lib/data/ledger/index.ts';
import { defaultSettings } from '#lib/data/settings/index.ts';
import { batchOf, goldenRecord, type Literal } from './rows-of.ts';

function ledgerOf(files: readonly (readonly Literal[])[], recovered: readonly string[] = []): Ledger {
  const ledger = new Ledger();
  files.forEach((records, i) => {
    const digit = 'abcdef'.charAt(i);
    ledger.append({ id: digit, name: `${digit}.csv`, sha256: digit.repeat(64) }, batchOf(records));
  });
  ledger.recompute(defaultSettings, [], recovered);
  return ledger;
}

const reasonsOf = (ledger: Ledger) =>
  Array.from({ length: ledger.rowCount }, (_none, row) => ledger.asideReason(row));

const other: Literal = { ...goldenRecord, ticket: '000418', time: '2031-07-02T10:20:00Z', tail: 'Q7-KEC' };

describe('suspected duplicates', () => {
  it('keep the first of two records that are the same, in whichever file they stand', () => {
    const ledger = ledgerOf([[goldenRecord, other], [other]]);
    expect(reasonsOf(ledger)).toEqual([null, null, 'sameRecord']);
    expect([...select(ledger, {}).rows]).toEqual([0, 1]);
  });

  it('are set aside where one ticket of a station has other content on the same day', () => {
    expect(reasonsOf(ledgerOf([[goldenRecord, { ...goldenRecord, volume: 14_000 }]]))).toEqual([
      null,
      'sameTicket'
    ]);
  });

  it('are none where a ticket number is used again on another day or at another station', () => {
    const later = { ...goldenRecord, time: '2032-07-01T10:20:00Z', volume: 9_000 };
    const elsewhere = { ...goldenRecord, station: 'JARV', volume: 8_000 };
    expect(reasonsOf(ledgerOf([[goldenRecord, later, elsewhere]]))).toEqual([null, null, null]);
  });

  it('are set aside where the same volume went into one tail at one instant under another ticket', () => {
    expect(reasonsOf(ledgerOf([[goldenRecord, { ...goldenRecord, ticket: '000999' }]]))).toEqual([
      null,
      'sameUplift'
    ]);
  });

  it('are none where a second vehicle pumped the same volume', () => {
    const second = { ...goldenRecord, ticket: '000999', vehicle: 'H2' };
    expect(reasonsOf(ledgerOf([[{ ...goldenRecord, vehicle: 'H1' }, second]]))).toEqual([null, null]);
  });

  it('come back when a person takes them back', () => {
    const before = ledgerOf([[goldenRecord], [goldenRecord]]);
    const address = addressText(before.source.addressOf(1));
    expect(reasonsOf(ledgerOf([[goldenRecord], [goldenRecord]], [address]))).toEqual([null, null]);
  });
});
