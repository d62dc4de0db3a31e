import { figure, words, type Twin } from '#lib/charts/twin.ts';
import type { PairedDatum, PairedWords } from '#lib/charts/paired-dots.ts';
import type { LimitStudyBand } from '#lib/data/questions/index.ts';
import { formatCount, formatNumber, formatPercent } from '#lib/ui/format.ts';
import { fewestForMark } from '../rates.ts';

/** What the two dots of a band are. */
export const studyWords: PairedWords = {
  item: 'Metered mass, kg',
  first: 'healthy instruments alone',
  second: 'flagged',
  value: 'Share of refuellings',
  unit: '%',
  form: { decimals: 1 },
  n: 'refuellings'
};

/** One band as two dots, in per cent. */
export function studyDatum(band: LimitStudyBand): PairedDatum {
  return {
    key: band.name,
    label: `${band.name} kg`,
    first: 100 * band.healthyShare,
    second: 100 * band.rate,
    n: band.judged
  };
}

/** What a band says in words: whether it flags more than noise would. */
export function bandWords(band: LimitStudyBand): string {
  if (band.judged < fewestForMark) return 'too few to say';
  if (!Number.isFinite(band.healthyShare)) return 'uncertainty not known';
  if (band.lower > band.healthyShare) return 'more than noise explains';
  return band.upper < band.healthyShare ? 'less than the noise entered' : 'as noise alone would';
}

/** The same numbers as a table, with counts and interval. */
export function studyTwin(bands: readonly LimitStudyBand[], caption: string): Twin {
  const percent = (share: number) =>
    figure(share, formatNumber(100 * share, { decimals: 1, missing: 'none' }));
  return {
    caption,
    columns: [
      { key: 'band', label: 'Metered mass', unit: 'kg' },
      { key: 'n', label: 'Refuellings', kind: 'number' },
      { key: 'outside', label: 'Flagged', kind: 'number' },
      { key: 'rate', label: 'Share flagged', unit: '%', kind: 'number' },
      { key: 'lower', label: 'Interval from', unit: '%', kind: 'number' },
      { key: 'upper', label: 'to', unit: '%', kind: 'number' },
      { key: 'healthy', label: 'Healthy instruments alone', unit: '%', kind: 'number' },
      { key: 'known', label: 'Uncertainty known of', kind: 'number' },
      { key: 'words', label: 'Which is' }
    ],
    rows: bands.map((band) => ({
      key: band.name,
      cells: [
        words(band.name),
        figure(band.judged, formatCount(band.judged)),
        figure(band.outside, formatCount(band.outside)),
        percent(band.rate),
        percent(band.lower),
        percent(band.upper),
        percent(band.healthyShare),
        figure(band.known, formatCount(band.known)),
        words(bandWords(band))
      ]
    }))
  };
}

/** The whole in one sentence: what is flagged, by noise alone, and by the limit in force where that is another. */
export function studySentence(name: string, all: LimitStudyBand, inForce: LimitStudyBand | null): string {
  const flagged = `${formatCount(all.outside)} of ${formatCount(all.judged)} (${formatPercent(all.rate)}) are flagged by ${name}`;
  const before =
    inForce === null
      ? ''
      : `, ${formatCount(inForce.outside)} (${formatPercent(inForce.rate)}) by the newest one entered`;
  const isBelow = all.upper < all.healthyShare;
  const below = isBelow ? ': more than are flagged, so the instruments do better than was entered' : '';
  const noise = Number.isFinite(all.healthyShare)
    ? `Healthy gauges and meters alone would break it in ${formatPercent(all.healthyShare)}, by the uncertainty entered for them${below}`
    : 'What healthy instruments would break is not known: enter tanks and gauge steps of the types';
  return `${flagged}${before}. ${noise}. A limit that healthy gauges break tells little.`;
}
