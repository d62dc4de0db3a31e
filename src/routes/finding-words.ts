import type { Finding, WholeGroup } from '#lib/data/questions/index.ts';
import type { RecordFilter } from '#lib/data/ledger/index.ts';
import { fieldNamed } from '#lib/data/record/index.ts';
import {
  causeWords,
  eventKindWords,
  gaugeSaysMore,
  meterSaysMore,
  sideWords
} from '#lib/data/words/index.ts';
import type { PagePath } from '#lib/state/address.svelte.ts';
import {
  formatCount,
  formatInterval,
  formatNumber,
  formatPercent,
  formatPercentInterval
} from '#lib/ui/format.ts';
import { groupCauseSentence } from './group-cause-words.ts';
import { dayWords } from './words.ts';

/** A finding as the page shows it: what is claimed, what it rests on, whose it may be, and where to look. */
export interface FindingLine {
  readonly key: string;
  readonly claim: string;
  readonly basis: string;
  /** Where such a thing may lie: a hint, never blame. */
  readonly hint: string;
  readonly path: PagePath;
  readonly filter: RecordFilter;
  readonly options: Readonly<Record<string, string>>;
}

function percent(value: number): string {
  return `${formatNumber(Math.abs(value), { decimals: 1 })} %`;
}

function placeOf(finding: Finding): string {
  if (finding.field !== 'station') return finding.name;
  return 'together' in finding && finding.together > 1
    ? `the ${finding.together} vehicles at ${finding.name}`
    : finding.name;
}

function days(fromMs: number, untilMs: number): string {
  const from = dayWords(fromMs);
  const until = dayWords(untilMs);
  return from === until ? `on ${from}` : `between ${from} and ${until}`;
}

type Words = Pick<FindingLine, 'claim' | 'basis' | 'hint' | 'path'> & { options?: Record<string, string> };

function trendPath(finding: Finding): Pick<Words, 'path'> & { options?: Record<string, string> } {
  if (finding.field === 'station') return { path: '/vehicles/' };
  return { path: '/trend/', options: { of: finding.field, name: finding.name } };
}

function hintOf(finding: Finding): string {
  if (finding.field === 'tail')
    return 'It goes with the aircraft whichever vehicle serves it: its gauge is the first place to look.';
  if (finding.field === 'vehicle')
    return 'It goes with the vehicle whichever aircraft it serves: its meter is the first place to look.';
  return 'It is the same at nearly every vehicle there: density, ground burn or procedure are likelier than the meters.';
}

const densityMoveWords = {
  moved: 'moved with it',
  unmoved: 'did not move',
  unknown: 'cannot be told to have moved'
} as const;

const densityMoveHints = {
  moved: 'The ticket changed more than the fuel did: how density is read and written there comes first.',
  unmoved: 'Other fuel, truly measured, looks like this: a step can be harmless.',
  unknown: 'Too few refuellings around it to tell other fuel from another way of writing.'
} as const;

const groupPaths: Readonly<Partial<Record<Finding['field'], PagePath>>> = {
  tail: '/aircraft/',
  vehicle: '/vehicles/'
};

/** What would fit the whole of the place a finding is of, one sentence each. */
function fitsOf(finding: Finding, groups: readonly WholeGroup[]): string {
  if (finding.kind !== 'moved' && finding.kind !== 'standsOff' && finding.kind !== 'oneDensity') return '';
  return groups
    .filter(({ field, name }) => field === finding.field && name === finding.name)
    .map((group) => ` It ${groupCauseSentence(group)}`)
    .join('');
}

function wordsOf(finding: Finding): Words {
  const n = formatCount(finding.n);
  switch (finding.kind) {
    case 'moved':
      return {
        claim: `${placeOf(finding)} moved ${percent(finding.byPercent)} towards the ${finding.byPercent > 0 ? 'gauge' : 'meter'}; ${finding.dated ? `taken as one step, ${days(finding.fromMs, finding.untilMs)}` : 'when cannot be said'}.`,
        basis: `${n} refuellings, the other side’s effects taken off; ${finding.byPercent > 0 ? gaugeSaysMore : meterSaysMore}.`,
        hint: hintOf(finding),
        ...trendPath(finding)
      };
    case 'standsOff':
      return {
        claim: `${placeOf(finding)} ${finding.together > 1 ? 'stand' : 'stands'} ${percent(finding.effect)} off the others: ${sideWords(finding.effect)}.`,
        basis: `${n} refuellings; ${formatNumber(finding.effect, { decimals: 2, signed: true })} %, standard error ${formatNumber(finding.error, { decimals: 2 })} %.`,
        hint: hintOf(finding),
        ...trendPath(finding)
      };
    case 'rateAbove':
      return {
        claim: `${finding.name} has ${formatNumber(finding.ratio, { decimals: 1 })} times as many outside limits as all together have for the same types, sizes and seasons.`,
        basis: `${formatCount(finding.outside)} of ${n} judged where ${formatNumber(finding.expected)} were to be expected, interval ${formatNumber(finding.lower, { decimals: 1 })} to ${formatNumber(finding.upper, { decimals: 1 })} times${finding.slips > 0 ? `, ${formatCount(finding.slips)} of them suspected slips` : ''}.`,
        hint: 'A station differs by what is done there: its bias, its scatter and its slips are told apart on its page.',
        path: '/stations/'
      };
    case 'oneDensity':
      return {
        claim: `At ${finding.name} ${formatPercent(finding.share)} of the densities are typed as ${formatNumber(finding.valueKgM3, { decimals: 1 })} kg/m³.`,
        basis: `${n} tickets with a density.`,
        hint: 'A default may stand in for a measurement.',
        path: '/density/'
      };
    case 'densityStep':
      return {
        claim: `The density of ${finding.supplier === '' ? 'the fuel' : finding.supplier} at ${finding.name} stepped ${finding.byKgM3 > 0 ? 'up' : 'down'} by ${formatNumber(Math.abs(finding.byKgM3), { decimals: 1 })} kg/m³ ${days(finding.fromMs, finding.untilMs)}; the discrepancy ${densityMoveWords[finding.moved]}.`,
        basis: `${n} tickets with a density. Discrepancy there with the same aircraft: ${formatInterval(finding.lowerPercent, finding.upperPercent, { decimals: 2, signed: true, unit: '%', missing: 'too few to say' })}; were only the written density another, it would be ${formatNumber(finding.ifWrittenPercent, { decimals: 2, signed: true })} %.`,
        hint: densityMoveHints[finding.moved],
        path: '/density/',
        options: { place: `${finding.name} ${finding.supplier}` }
      };
    case 'scatterChanged':
      return {
        claim: `The scatter of ${finding.name} went from ${formatNumber(finding.before, { decimals: 1 })} to ${formatNumber(finding.after, { decimals: 1 })} % with the event of ${dayWords(finding.atMs)} (${eventKindWords[finding.event]}).`,
        basis: `${n} refuellings before and after with the same ${finding.field === 'tail' ? 'vehicles' : 'aircraft'}; after over before ${formatInterval(finding.lower, finding.upper, { decimals: 2 })}.`,
        hint: 'Scatter is not bias: a gauge can be right in the mean and still not be believed uplift by uplift.',
        path: '/trend/',
        options: { of: finding.field, name: finding.name }
      };
    case 'failures':
      return {
        claim: `${fieldNamed(finding.check).label} fails more often at ${finding.name} than elsewhere: ${formatPercent(finding.rate, { decimals: 2 })} against ${formatPercent(finding.allRate, { decimals: 2 })}.`,
        basis: `${formatCount(finding.failed)} of ${n} with a result, interval ${formatPercentInterval(finding.lower, finding.upper, { decimals: 2 })}.`,
        hint: 'Where contamination is suspected the approved procedures come first, not a chart.',
        path: '/samples/',
        options: { check: finding.check }
      };
    case 'coverageFell':
      return {
        claim: `${fieldNamed(finding.check).label} is recorded less at ${finding.name}: ${formatPercent(finding.before)} of the checks due in the first third of the time, ${formatPercent(finding.after)} in the last.`,
        basis: `${n} due in the last third; a fall of ${formatInterval(100 * finding.lower, 100 * finding.upper, { decimals: 1 })} points.`,
        hint: 'A missing check is not a pass.',
        path: '/samples/',
        options: { check: finding.check }
      };
    case 'wholeGroup':
      return {
        claim: `${finding.name} ${groupCauseSentence(finding)}`,
        basis: 'Told from the whole group, not from one record.',
        hint: 'A proposal: nothing was corrected.',
        path: groupPaths[finding.field] ?? '/stations/'
      };
    case 'slips':
      return {
        claim: `${n} records at ${finding.name} ${causeWords[finding.cause]}, ${days(finding.fromMs, finding.untilMs)}.`,
        basis: `${n} records, each named on its own evidence.`,
        hint: 'A proposal: nothing was corrected. Open a record to see what the figure would be.',
        path: '/records/',
        options: { order: 'likelyCause up' }
      };
  }
}

/** A finding in words, with the page that shows it narrowed to it. */
export function findingLine(
  finding: Finding,
  filter: RecordFilter,
  groups: readonly WholeGroup[] = []
): FindingLine {
  const words = wordsOf(finding);
  const narrowed: RecordFilter = { ...filter, names: { ...filter.names, [finding.field]: [finding.name] } };
  const detail =
    'check' in finding
      ? ` ${finding.check}`
      : 'cause' in finding
        ? ` ${finding.cause}`
        : 'supplier' in finding
          ? ` ${finding.supplier}`
          : '';
  return {
    key: `${finding.kind} ${finding.field} ${finding.name}${detail}`,
    claim: words.claim.charAt(0).toUpperCase() + words.claim.slice(1),
    basis: `${words.basis}${fitsOf(finding, groups)}`,
    hint: words.hint,
    path: words.path,
    filter: finding.kind === 'slips' ? { ...narrowed, marks: ['suspectedSlip'] } : narrowed,
    options: words.options ?? {}
  };
}
