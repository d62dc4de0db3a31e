import type { GapDatum, GapLimit } from '#lib/charts/gap-chart.ts';
import type { SampleGapsAnswer } from '#lib/data/questions/index.ts';
import { formatCount, formatNumber, formatPercent } from '#lib/ui/format.ts';
import { groupName } from '../rates.ts';
import { dayWords } from '../words.ts';

/** What a gap is counted in. */
export type GapUnit = 'checks' | 'days';

/** Gaps as they are drawn, the one still open last. */
export function gapData(answer: SampleGapsAnswer, unit: GapUnit): GapDatum[] {
  const limits = unit === 'checks' ? answer.limits : answer.dayLimits;
  const closed = answer.gaps.map((gap, index): GapDatum => {
    const long = limits !== null && gap[unit] > limits.upper;
    return {
      key: String(index),
      label: `${dayWords(gap.timeMs)} ${groupName(gap.station)}`,
      gap: gap[unit],
      mark: gap.fast ? 'ringed' : 'open',
      word: gap.fast
        ? 'failures come faster than the pace'
        : long
          ? 'longer than chance gives'
          : 'nothing unusual'
    };
  });
  if (answer.open === null) return closed;
  const open: GapDatum = {
    key: 'open',
    label: dayWords(answer.untilMs),
    gap: answer.open[unit],
    running: true,
    mark: 'plain',
    word: openWords(answer)
  };
  return [...closed, open];
}

function openWords(answer: SampleGapsAnswer): string {
  if (Number.isNaN(answer.openChance)) return 'no failure since';
  return `a gap this long or longer comes in ${formatPercent(answer.openChance)} of the cases at the pace`;
}

/** Limits worth drawing beside the gaps: one that lies on the base line or far above every gap says nothing there. */
export function drawnLimits(limits: readonly GapLimit[], data: readonly GapDatum[]): GapLimit[] {
  const longest = Math.max(0, ...data.map(({ gap }) => gap));
  return limits.filter(({ value }) => value >= longest / 20 && value <= 2 * longest);
}

export function gapLimitLines(answer: SampleGapsAnswer, unit: GapUnit): GapLimit[] {
  const limits = unit === 'checks' ? answer.limits : answer.dayLimits;
  if (limits === null) return [];
  return [
    { key: 'upper', label: 'long', value: limits.upper },
    { key: 'centre', label: 'middle', value: limits.centre },
    { key: 'lower', label: 'short', value: limits.lower }
  ];
}

/** The pace in words, with what it rests on. */
export function paceSentence({ pace, runLength }: SampleGapsAnswer): string {
  if (pace === null) return 'Fewer than 5 failures: no pace can be told, so no limits are drawn.';
  const whose = pace.from === 'others' ? 'Pace of all others' : 'Pace of these records themselves';
  return `${whose}: ${formatCount(pace.failed)} failed of ${formatCount(pace.results)} with a result, one failure after ${formatNumber(pace.meanChecks)} passed in the mean (${formatNumber(pace.meanDays, { decimals: 1 })} days here). A ring: the weighted average of the gaps lies below its limit, by chance about once in ${formatCount(runLength)} failures.`;
}

/** What the chart shows, in one sentence. */
export function gapSentence(answer: SampleGapsAnswer): string {
  const open =
    answer.open === null
      ? ''
      : ` Since the last failure ${formatCount(answer.open.checks)} have passed in ${formatNumber(answer.open.days)} days.`;
  if (answer.failed === 0) return `No failure among ${formatCount(answer.results)} checks with a result.`;
  if (answer.runs.length === 0)
    return `No run of failures stands out among ${formatCount(answer.failed)}.${open}`;
  const runs = answer.runs.map(
    ({ fromMs, untilMs, failed, expected }) =>
      `${formatCount(failed)} from ${dayWords(fromMs)} to ${dayWords(untilMs)}, where about ${formatNumber(expected, { decimals: 1 })} would be expected`
  );
  return `Failures came faster than the pace: ${runs.join('; ')}.${open}`;
}
