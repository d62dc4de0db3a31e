import { noteWords, reasonWords, type Fate, type ReasonCode } from '#lib/data/words/index.ts';
import type { FateCounts, RecordFate } from '../account.ts';
import type { Note } from '../layout.ts';

/** Records listed one by one; further ones are counted, and a note says so. */
const mostListed = 200_000;
/** Longest value quoted in an account. */
const longestValue = 200;

const setAsideCodes: ReadonlySet<ReasonCode> = new Set(['wordUnknown', 'endBeforeStart']);
const skippedCodes: ReadonlySet<ReasonCode> = new Set([
  'blank',
  'preamble',
  'repeatedHeader',
  'unitsRow',
  'totals',
  'footer'
]);

/** The fate that a reason leads to. */
export function fateOf(code: ReasonCode): Exclude<Fate, 'used'> {
  if (code === 'header') return 'header';
  if (skippedCodes.has(code)) return 'skipped';
  return setAsideCodes.has(code) ? 'setAside' : 'refused';
}

export function newFateCounts(): FateCounts {
  return { lines: 0, records: 0, header: 0, used: 0, setAside: 0, refused: 0, skipped: 0 };
}

/** Counts records by fate and lists all that are not used. */
export class FateList {
  readonly counts: FateCounts = newFateCounts();
  readonly records: RecordFate[] = [];
  #unlisted = 0;

  addUsed(records = 1): void {
    this.counts.records += records;
    this.counts.used += records;
  }

  add(
    line: number,
    code: ReasonCode,
    column: number | null,
    header: string | null,
    value: string | null
  ): void {
    const fate = fateOf(code);
    this.counts.records++;
    this.counts[fate]++;
    if (this.records.length >= mostListed) {
      this.#unlisted++;
      return;
    }
    const words = header === null || header === '' ? reasonWords[code] : `${header}: ${reasonWords[code]}`;
    this.records.push({ line, fate, code, column, value: value?.slice(0, longestValue) ?? null, words });
  }

  notes(): Note[] {
    if (this.#unlisted === 0) return [];
    return [{ code: 'notListed', line: null, words: `${noteWords.notListed}: ${this.#unlisted}` }];
  }
}
