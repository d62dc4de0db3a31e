import type { RateDatum, RateWords } from '#lib/charts/rate-dots.ts';
import type { BoxDatum, BoxWords } from '#lib/charts/box-strips.ts';
import type { BiasDatum, BiasWords } from '#lib/charts/bias-dots.ts';
import { gaugeSaysMore, meterSaysMore } from '#lib/data/words/index.ts';
import type { DiscrepancyGroup, SpreadGroup } from '#lib/data/questions/index.ts';
import {
  formatCount,
  formatInterval,
  formatNumber,
  formatPercent,
  formatPercentInterval
} from '#lib/ui/format.ts';
import { visibleText } from '#lib/ui/visible-text.ts';

/** Judged refuellings from which a rate is given a mark; below: "too few to say". */
export const fewestForMark = 30;

export const rateWords: RateWords = {
  group: 'Group',
  rate: 'Rate outside limits',
  events: 'Outside limits',
  n: 'Judged',
  split: 'suspected slips'
};

/** The name of a group on screen. */
export function groupName(name: string): string {
  return name === '' ? 'not recorded' : visibleText(name);
}

/**
 * The mark of a group's rate against the rate of all: ringed where its whole interval lies above, half where only
 * its rate does, none where there are too few to say.
 */
export function rateDatum(group: DiscrepancyGroup, all: DiscrepancyGroup): RateDatum {
  const few = group.judged < fewestForMark;
  const above = group.rateLower > all.rate;
  const below = group.rateUpper < all.rate;
  return {
    key: group.name,
    label: groupName(group.name),
    rate: group.rate,
    low: group.rateLower,
    high: group.rateUpper,
    events: group.outside,
    n: group.judged,
    split: group.slips,
    mark: few ? 'plain' : above ? 'ringed' : 'open',
    word: few
      ? 'too few to say'
      : above
        ? 'plainly above all together'
        : below
          ? 'plainly below all together'
          : 'not told apart'
  };
}

export const biasWords: BiasWords = {
  item: 'Group',
  value: 'Mean discrepancy',
  unit: '%',
  form: { decimals: 2, signed: true },
  n: 'refuellings',
  minus: meterSaysMore,
  plus: gaugeSaysMore
};

/** Two-sided 95 % of the normal distribution: groups below the least n get no whisker verdict. */
const z95 = 1.959964;

/** Mean discrepancy of a group with its 95 % interval. */
export function biasDatum(group: DiscrepancyGroup): BiasDatum {
  const half = z95 * group.meanErrorPercent;
  const few = group.measured < fewestForMark;
  const clear = Math.abs(group.meanPercent) > half;
  return {
    key: group.name,
    label: groupName(group.name),
    value: group.meanPercent,
    low: group.meanPercent - half,
    high: group.meanPercent + half,
    n: group.measured,
    mark: few ? 'plain' : clear ? 'ringed' : 'open',
    word: few ? 'too few to say' : clear ? 'differs from zero' : 'not told from zero'
  };
}

/** "31 outside of 412 judged (7.5 %, interval 5.3 to 10.5 %), 9 of them suspected slips". */
export function rateSentence(group: DiscrepancyGroup): string {
  if (group.judged === 0) return 'No refuelling could be judged';
  const slips = group.slips === 0 ? '' : `, ${formatCount(group.slips)} of them suspected slips`;
  return `${formatCount(group.outside)} outside of ${formatCount(group.judged)} judged (${formatPercent(group.rate)}, interval ${formatPercentInterval(group.rateLower, group.rateUpper)})${slips}`;
}

export const stripWords: BoxWords = {
  group: 'Group',
  value: 'Discrepancy',
  unit: '%',
  form: { decimals: 2, signed: true },
  n: 'refuellings'
};

/** "standard deviation 1.24 %, interval 1.22 to 1.27 %". */
function deviationWords({ deviation, deviationLower, deviationUpper }: SpreadGroup): string {
  const interval = formatInterval(deviationLower, deviationUpper, {
    decimals: 2,
    missing: 'none',
    unit: '%'
  });
  return `standard deviation ${formatNumber(deviation, { decimals: 2 })}\u2009%, interval ${interval}`;
}

/** The scatter of a group as a strip. It carries no verdict: a wide strip is a question, not a finding. */
export function stripDatum(group: SpreadGroup): BoxDatum {
  return {
    key: group.name,
    label: groupName(group.name),
    n: group.n,
    q05: group.q05,
    q25: group.q25,
    q50: group.q50,
    q75: group.q75,
    q95: group.q95,
    values: group.values,
    mark: 'plain',
    word: group.n < fewestForMark ? 'too few to say' : deviationWords(group)
  };
}

/** Above this many groups the small ones are left out of the drawing unless asked for. */
export const mostGroups = 40;

/** More groups than this are never drawn: a chart of ten thousand lines would be no chart, and no page either. */
export const mostDrawn = 300;

/** The largest groups, no more than can be drawn, in the order given. */
export function largestOf<G>(groups: readonly G[], sizeOf: (group: G) => number): readonly G[] {
  if (groups.length <= mostDrawn) return groups;
  const bySize = groups.toSorted((a, b) => sizeOf(b) - sizeOf(a));
  const kept = new Set(bySize.slice(0, mostDrawn));
  return groups.filter((group) => kept.has(group));
}

/** The groups to draw: all where they are few or asked for, else those large enough to say something. */
export function drawnGroups<G extends { readonly judged: number }>(
  groups: readonly G[],
  all: boolean
): readonly G[] {
  const wanted =
    all || groups.length <= mostGroups ? groups : groups.filter((group) => group.judged >= fewestForMark);
  return largestOf(wanted, (group) => group.judged);
}

/**
 * A scale for rates that one tiny group does not stretch: every dot is on it, and the whiskers of groups large enough
 * to say something; a longer whisker runs off the scale and its ends stand in the table.
 */
export function rateDomain(data: readonly RateDatum[]): readonly [number, number] {
  const dots = data.map(({ rate }) => rate);
  const whiskers = data.filter(({ n }) => n >= fewestForMark).map(({ high }) => high);
  const largest = Math.max(0, ...[...dots, ...whiskers].filter(Number.isFinite));
  return [0, largest === 0 ? 1 : Math.min(1, largest * 1.05)];
}
