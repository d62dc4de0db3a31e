import type { BiasDatum, BiasWords } from '#lib/charts/bias-dots.ts';
import {
  binPoints,
  type ScatterData,
  type ScatterLine,
  type ScatterWords
} from '#lib/charts/scatter-bins.ts';
import { figure, words, type MarkKind, type Twin } from '#lib/charts/twin.ts';
import { fieldNamed, splitKey } from '#lib/data/record/index.ts';
import type { LevelBand, OffsetLine, OneGaugeAnswer } from '#lib/data/questions/index.ts';
import { gaugeSaysMore, meterSaysMore } from '#lib/data/words/index.ts';
import { formatCount, formatInterval, formatNumber } from '#lib/ui/format.ts';
import { fewestForMark } from './rates.ts';

const z95 = 1.959964;
const kgForm = { decimals: 0, signed: true } as const;
const percentForm = { decimals: 2, signed: true } as const;
const sides = { minus: meterSaysMore, plus: gaugeSaysMore } as const;

/** What a line says, as a reader would. */
export const lineKindWords: Record<OffsetLine['kind'], string> = {
  neither: 'neither seen',
  constant: 'a constant in kg',
  share: 'a share of the uplift',
  both: 'a constant and a share',
  cannotTell: 'something, cannot tell which'
};

export const constantWords: Omit<BiasWords, 'item'> = {
  value: 'Constant',
  unit: 'kg',
  form: kgForm,
  n: 'refuellings',
  ...sides
};

export const shareWords: Omit<BiasWords, 'item'> = {
  ...constantWords,
  value: 'Share',
  unit: '%',
  form: percentForm
};

/** One part of a line with its 95 % interval: ringed where it is told from zero, half where something is there. */
function partDatum(line: OffsetLine, { value, error }: OffsetLine['constantKg'], isTold: boolean): BiasDatum {
  return {
    key: line.name,
    label: line.name,
    group: line.peers,
    value,
    low: value - z95 * error,
    high: value + z95 * error,
    n: line.n,
    mark: isTold ? 'ringed' : line.kind === 'cannotTell' ? 'half' : 'open',
    word: lineKindWords[line.kind]
  };
}

export function constantDatum(line: OffsetLine): BiasDatum {
  return partDatum(line, line.constantKg, line.kind === 'constant' || line.kind === 'both');
}

export function shareDatum(line: OffsetLine): BiasDatum {
  return partDatum(line, line.sharePercent, line.kind === 'share' || line.kind === 'both');
}

function markOf({ kind }: OffsetLine): MarkKind {
  if (kind === 'cannotTell') return 'half';
  return kind === 'neither' ? 'open' : 'ringed';
}

/** Both parts of every line as a table. */
export function linesTwin(lines: readonly OffsetLine[], item: string, caption: string): Twin {
  const kg = (value: number) => figure(value, formatNumber(value, { decimals: 1, signed: true }));
  const percent = (value: number) => figure(value, formatNumber(value, percentForm));
  const number = (key: string, label: string, unit: string) => ({
    key,
    label,
    unit,
    kind: 'number' as const
  });
  const hasPeers = lines.some(({ peers }) => peers !== '');
  return {
    caption,
    columns: [
      { key: 'item', label: item },
      ...(hasPeers ? [{ key: 'peers', label: 'Held against the others of' }] : []),
      { key: 'n', label: 'Refuellings', kind: 'number' },
      number('constant', 'Constant', 'kg'),
      number('constantLow', 'Interval from', 'kg'),
      number('constantHigh', 'to', 'kg'),
      number('share', 'Share', '%'),
      number('shareLow', 'Interval from', '%'),
      number('shareHigh', 'to', '%'),
      { key: 'kind', label: 'What it is' }
    ],
    rows: lines.map((line) => {
      const { name, peers, n, kind, constantKg, sharePercent } = line;
      return {
        key: name,
        cells: [
          words(name),
          ...(hasPeers ? [words(peers === '' ? 'not recorded' : peers)] : []),
          figure(n, formatCount(n)),
          kg(constantKg.value),
          kg(constantKg.value - z95 * constantKg.error),
          kg(constantKg.value + z95 * constantKg.error),
          percent(sharePercent.value),
          percent(sharePercent.value - z95 * sharePercent.error),
          percent(sharePercent.value + z95 * sharePercent.error),
          { text: lineKindWords[kind], mark: markOf(line) }
        ]
      };
    })
  };
}

function listed(lines: readonly OffsetLine[], part: (line: OffsetLine) => string): string {
  return lines.map((line) => `${line.name} ${part(line)}`).join(', ');
}

/** The lines that say something, in a sentence; '' where none does. */
export function linesSentence(lines: readonly OffsetLine[]): string {
  const constant = ({ constantKg }: OffsetLine) => `${formatNumber(constantKg.value, kgForm)} kg`;
  const share = ({ sharePercent }: OffsetLine) => `${formatNumber(sharePercent.value, percentForm)} %`;
  const parts = [
    ['A constant', lines.filter(({ kind }) => kind === 'constant'), constant],
    ['A share of the uplift', lines.filter(({ kind }) => kind === 'share'), share],
    [
      'Both',
      lines.filter(({ kind }) => kind === 'both'),
      (line: OffsetLine) => `${constant(line)} and ${share(line)}`
    ]
  ] as const;
  return parts
    .filter(([, some]) => some.length > 0)
    .map(([what, some, part]) => `${what}: ${listed(some, part)}.`)
    .join(' ');
}

export const scatterWords: ScatterWords = {
  item: 'Refuelling',
  x: { label: 'Metered mass', unit: 'kg', form: {} },
  y: { label: 'Own discrepancy', unit: 'kg', form: kgForm },
  n: 'refuellings'
};

/** Share of the refuellings left outside the drawing on either side, so that a few do not flatten the rest. */
const trimmed = 0.005;

function middleDomain(values: Float64Array): [number, number] {
  const sorted = values.slice().sort();
  const at = (share: number) => sorted[Math.round(share * (sorted.length - 1))] ?? 0;
  return [Math.min(0, at(trimmed)), Math.max(0, at(1 - trimmed))];
}

/** Where the refuellings of a gauge lie, counted in bins, and how many lie outside the drawing. */
export function gaugeBins(gauge: OneGaugeAnswer): { data: ScatterData; leftOut: number } {
  const most = gauge.massKg.reduce((a, b) => Math.max(a, b), 0);
  const bins = binPoints(gauge.massKg, gauge.ownKg, [0, most], middleDomain(gauge.ownKg), 40, 20);
  const drawn = bins.reduce((sum, { count }) => sum + count, 0);
  return { data: { kind: 'bins', bins }, leftOut: gauge.n - drawn };
}

/** The fitted line over the masses in hand. */
export function fittedLine(gauge: OneGaugeAnswer): ScatterLine[] {
  const { line } = gauge;
  if (line === null) return [];
  const least = gauge.massKg.reduce((a, b) => Math.min(a, b), Infinity);
  const most = gauge.massKg.reduce((a, b) => Math.max(a, b), 0);
  const at = (mass: number): [number, number] => [mass, line.offset.value + line.scale.value * mass];
  const value = `${formatNumber(line.offset.value, kgForm)} kg, ${formatNumber(100 * line.scale.value, percentForm)} %`;
  return [{ key: 'line', label: value, from: at(least), to: at(most) }];
}

/** "Constant +12 kg (interval -3 to +27 kg), share +0.30 % (interval +0.10 to +0.50 %)". */
export function lineSentence(gauge: OneGaugeAnswer): string {
  const { line } = gauge;
  if (line === null) return `${formatCount(gauge.n)} refuellings: too few to fit a line.`;
  const part = (value: number, error: number, form: typeof kgForm | typeof percentForm, unit: string) =>
    `${formatNumber(value, form)} ${unit} (interval ${formatInterval(value - z95 * error, value + z95 * error, { ...form, unit })})`;
  return `${formatCount(line.n)} refuellings: constant ${part(line.offset.value, line.offset.error, kgForm, 'kg')}, share ${part(100 * line.scale.value, 100 * line.scale.error, percentForm, '%')}, before what others have in common is taken off.`;
}

/** What the fuel level is of: "Departure fuel", or "Tank after: left outer". */
export function levelName(of: string): string {
  const { name, member } = splitKey(of);
  return member === null ? fieldNamed(name).label : `${fieldNamed(name).label}: ${member}`;
}

export const levelWords: Omit<BiasWords, 'item'> = {
  value: 'Mean own discrepancy',
  unit: 'kg',
  form: kgForm,
  n: 'refuellings',
  ...sides
};

/** A stretch of fuel level with its mean and 95 % interval. */
export function levelDatum(band: LevelBand): BiasDatum {
  const few = band.n < fewestForMark;
  return {
    key: String(band.fromKg),
    label: `${formatCount(band.fromKg)} to ${formatCount(band.toKg)} kg`,
    value: band.meanKg,
    low: band.meanKg - z95 * band.errorKg,
    high: band.meanKg + z95 * band.errorKg,
    n: band.n,
    mark: few ? 'plain' : band.differs ? 'ringed' : 'open',
    word: few ? 'too few to say' : band.differs ? 'off its other levels' : 'not told apart'
  };
}
