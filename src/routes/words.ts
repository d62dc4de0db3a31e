import type { MarkKind } from '#lib/charts/twin.ts';
import { sideWords } from '#lib/data/words/index.ts';
import { formatNumber } from '#lib/ui/format.ts';

const months = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];

/** A day in words, UTC: "14 Aug 2031". */
export function dayWords(timeMs: number): string {
  if (!Number.isFinite(timeMs)) return 'not recorded';
  const date = new Date(timeMs);
  return `${date.getUTCDate()} ${months[date.getUTCMonth()] ?? ''} ${date.getUTCFullYear()}`;
}

/** A month in words, UTC: "Aug 2031". */
export function monthWords(timeMs: number): string {
  const date = new Date(timeMs);
  return `${months[date.getUTCMonth()] ?? ''} ${date.getUTCFullYear()}`;
}

/** An instant in words, UTC, to the minute. */
export function instantWords(timeMs: number): string {
  if (!Number.isFinite(timeMs)) return 'not recorded';
  return `${new Date(timeMs).toISOString().slice(0, 16).replace('T', ' ')} UTC`;
}

/** A period of ISO days in words. */
export function periodWords(fromDay: string | undefined, untilDay: string | undefined): string {
  const from = fromDay === undefined ? '' : dayWords(Date.parse(fromDay));
  const until = untilDay === undefined ? '' : dayWords(Date.parse(untilDay));
  if (from === '') return `until ${until}`;
  if (until === '') return `from ${from}`;
  return from === until ? from : `${from} to ${until}`;
}

/** A signed mass with its side in words: "+120 kg, gauge says more". */
export function signedKg(massKg: number): string {
  if (!Number.isFinite(massKg)) return 'not reconcilable';
  const side = sideWords(massKg);
  return `${formatNumber(massKg, { signed: true })} kg${side === '' ? '' : `, ${side}`}`;
}

/** The ink of a record's verdict: half where it is outside, but no further than its own uncertainty explains. */
export function verdictMark(verdict: string, en: number): MarkKind {
  if (verdict === 'within') return 'open';
  if (verdict !== 'outside') return 'plain';
  return Math.abs(en) <= 1 ? 'half' : 'ringed';
}

/** The first eight digits of a fingerprint in two groups, as stubs and links show it. */
export function shortPrint(fingerprint: string | null): string {
  return fingerprint === null ? 'not yet known' : `${fingerprint.slice(0, 4)} ${fingerprint.slice(4, 8)}`;
}

/** First and last day of a month written `2031-07`. */
export function monthDays(month: string): { fromDay: string; untilDay: string } {
  const [year = NaN, number = NaN] = month.split('-').map(Number);
  const last = new Date(Date.UTC(year, number, 0)).getUTCDate();
  return { fromDay: `${month}-01`, untilDay: `${month}-${String(last).padStart(2, '0')}` };
}
