import type { ForestDatum, ForestFoot, ForestWords } from '#lib/charts/forest.ts';
import type { PairedDatum, PairedWords } from '#lib/charts/paired-dots.ts';
import type {
  ComparedSides,
  ComparedStratum,
  ComparisonStep,
  Measure,
  Refusal,
  Sameness,
  SuppliersAnswer
} from '#lib/data/questions/index.ts';
import { gaugeSaysMore, meterSaysMore } from '#lib/data/words/index.ts';
import { formatCount, formatInterval, formatNumber, formatPercent } from '#lib/ui/format.ts';

/** Rates are drawn in percentage points, mean discrepancies in per cent of metered mass as they are. */
const scaleOf = (measure: Measure): number => (measure === 'rate' ? 100 : 1);

export const measureNames: Readonly<Record<Measure, string>> = {
  rate: 'Rate outside limits',
  mean: 'Mean discrepancy'
};

export const sameWords: Readonly<Record<Sameness, string>> = {
  nothing: 'Plain: all uplifts',
  station: 'Same station',
  type: 'and same type',
  size: 'and same size',
  season: 'Like for like: and same season'
};

/** Words of the forest: the first supplier less the second. */
export function forestWords(answer: SuppliersAnswer, item: string): ForestWords {
  const sides =
    answer.measure === 'rate'
      ? { minus: 'first has fewer', plus: 'first has more', inked: false }
      : { minus: meterSaysMore, plus: gaugeSaysMore };
  return {
    item,
    a: answer.a.name,
    b: answer.b.name,
    value: 'Difference',
    unit: answer.measure === 'rate' ? 'points' : '%',
    form: { decimals: 2, signed: true },
    ...sides
  };
}

function sidesOf(measure: Measure, row: ComparedSides): Omit<ForestFoot, 'key' | 'label'> {
  const scale = scaleOf(measure);
  return {
    nA: row.nA,
    nB: row.nB,
    value: scale * row.difference,
    low: scale * row.lower,
    high: scale * row.upper
  };
}

export function stepDatum(measure: Measure, step: ComparisonStep): ForestDatum {
  return { key: step.same, label: sameWords[step.same], ...sidesOf(measure, step) };
}

const tonnes = (massKg: number): string => formatNumber(massKg / 1000, { decimals: 1 });

/** "AV150, 4.3 to 6.2 t". */
function stratumLabel({ type, fromKg, untilKg, season }: ComparedStratum): string {
  const [from, until] = [Number.isFinite(fromKg), Number.isFinite(untilKg)];
  const size =
    from && until
      ? `${tonnes(fromKg)} to ${tonnes(untilKg)} t`
      : from
        ? `${tonnes(fromKg)} t and more`
        : until
          ? `under ${tonnes(untilKg)} t`
          : 'no metered mass';
  return [type === '' ? 'type not recorded' : type, size, season].filter((part) => part !== '').join(', ');
}

/** The rows of the forest with their shares, and like for like at the foot. */
export function stratumData(answer: SuppliersAnswer): { data: ForestDatum[]; foot: ForestFoot | null } {
  const { measure, strata } = answer;
  const whole = strata.reduce((sum, { weight }) => sum + weight, 0);
  const fair = answer.steps.at(-1);
  return {
    data: strata.map((row) => ({
      key: stratumLabel(row),
      label: stratumLabel(row),
      ...sidesOf(measure, row),
      weight: row.weight / whole
    })),
    foot: fair === undefined ? null : { key: 'all', label: 'All, like for like', ...sidesOf(measure, fair) }
  };
}

/** Refuellings a side from which a row's whole whisker is to be on the scale. */
const fewestForScale = 30;

/** A scale for differences that one tiny row does not stretch: every square is on it, and the whiskers of larger rows. */
export function forestDomain(data: readonly (ForestDatum | ForestFoot)[]): readonly [number, number] {
  const reach = data.flatMap(({ value, low, high, nA, nB }) =>
    Math.min(nA, nB) < fewestForScale ? [value] : [value, low, high]
  );
  const most = Math.max(0, ...reach.filter(Number.isFinite).map(Math.abs)) * 1.05;
  return most === 0 ? [-1, 1] : [-most, most];
}

export function pairedWords(measure: Measure): PairedWords {
  return {
    item: 'Supplier',
    first: 'plain',
    second: 'like for like',
    value: measureNames[measure],
    unit: '%',
    form: measure === 'rate' ? { decimals: 2 } : { decimals: 2, signed: true },
    n: 'refuellings in common'
  };
}

/** Each supplier as it stands and like for like. */
export function pairedData(answer: SuppliersAnswer): PairedDatum[] {
  const scale = scaleOf(answer.measure);
  const [plain, fair] = [answer.steps[0], answer.steps.at(-1)];
  if (plain === undefined || fair === undefined) return [];
  return [
    {
      key: 'a',
      label: answer.a.name,
      first: scale * plain.valueA,
      second: scale * fair.valueA,
      n: fair.nA
    },
    {
      key: 'b',
      label: answer.b.name,
      first: scale * plain.valueB,
      second: scale * fair.valueB,
      n: fair.nB
    }
  ];
}

/** Whether a difference can be told from zero, and which way, in words. */
export function standing(measure: Measure, row: ComparedSides, first: string): string {
  if (!(row.lower > 0 || row.upper < 0)) return 'not told apart';
  if (measure === 'rate') return `${first} has ${row.difference > 0 ? 'more' : 'fewer'} outside`;
  return `with ${first} the ${row.difference > 0 ? gaugeSaysMore : meterSaysMore}`;
}

/** "+0.20 (−0.24 to +0.63)", its unit in the header. */
export function differenceFigures(measure: Measure, row: ComparedSides): string {
  const scale = scaleOf(measure);
  const form = { decimals: 2, signed: true };
  return `${formatNumber(scale * row.difference, form)} (${formatInterval(scale * row.lower, scale * row.upper, form)})`;
}

/** "+0.20 points, interval −0.24 to +0.63". */
export function differenceWords(measure: Measure, row: ComparedSides): string {
  const scale = scaleOf(measure);
  const form = { decimals: 2, signed: true };
  const unit = measure === 'rate' ? 'points' : '%';
  return `${formatNumber(scale * row.difference, form)} ${unit}, interval ${formatInterval(scale * row.lower, scale * row.upper, form)}`;
}

/** What the fair figure says, with the plain one beside it. */
export function fairSentence(answer: SuppliersAnswer): string {
  const [plain, fair] = [answer.steps[0], answer.steps.at(-1)];
  if (answer.refusal !== null || plain === undefined || fair === undefined) return '';
  const { measure, a, b } = answer;
  return `Like for like, ${a.name} less ${b.name}: ${differenceWords(measure, fair)}: ${standing(measure, fair, a.name)}. Plain: ${differenceWords(measure, plain)}.`;
}

const steady: Readonly<Record<Sameness, string>> = {
  nothing: '',
  station: 'station',
  type: 'aircraft type',
  size: 'uplift size',
  season: 'season'
};

/** What makes the fair figure differ from the plain one; '' where the plain one lies within the fair interval. */
export function movedBy(answer: SuppliersAnswer): string {
  const { steps } = answer;
  const [plain, fair] = [steps[0], steps.at(-1)];
  if (answer.refusal !== null || plain === undefined || fair === undefined) return '';
  if (plain.difference >= fair.lower && plain.difference <= fair.upper) return '';
  const moves = steps.slice(1).map(({ same, difference }, i) => ({
    same,
    by: Math.abs(difference - (steps[i]?.difference ?? NaN))
  }));
  const [most] = moves.toSorted((p, q) => q.by - p.by);
  return most === undefined
    ? ''
    : `What moves it most: comparing at the same ${steady[most.same]}. The two serve different ones.`;
}

const share = (part: { common: number; refuellings: number }): string =>
  formatPercent(part.common / part.refuellings, { decimals: 0 });

/** Why no fair figure is given. */
export function refusalWords(refusal: Refusal, { a, b, measure }: SuppliersAnswer): string {
  const judged = measure === 'rate' ? 'judged' : 'measured';
  switch (refusal) {
    case 'oneSupplier': {
      const none = [a, b].filter(({ refuellings }) => refuellings === 0).map(({ name }) => name);
      const missing = none.filter((name) => name !== '').join(' and ');
      return missing === ''
        ? `Fewer than two suppliers have a ${judged} refuelling here: there is nothing to compare.`
        : `${missing} ${none.length === 1 ? 'has' : 'have'} no ${judged} refuelling here: there is nothing to compare.`;
    }
    case 'noCommon':
      return `No uplift of ${a.name} has a counterpart among those of ${b.name}: they share no station with the same types, sizes and seasons. Any difference between them may be one of stations.`;
    case 'fewUplifts':
      return `Too few to say: ${formatCount(a.common)} uplifts of ${a.name} and ${formatCount(b.common)} of ${b.name} have a counterpart. A comparison needs 100 a side.`;
    case 'fewEvents':
      return 'Too few to say: fewer than five uplifts in common are outside limits.';
    case 'thinOverlap':
      return `They hardly overlap: ${share(a)} of ${a.name}’s uplifts and ${share(b)} of ${b.name}’s have a counterpart. A figure from so little would stand for the work of neither. Narrow to a station that both serve.`;
  }
}

/** A caution where the fair figure stands for less than half of either's uplifts. */
export function overlapCaution({ a, b, refusal }: SuppliersAnswer): string {
  const low = [a, b].filter(({ common, refuellings }) => common < refuellings / 2);
  if (refusal !== null || low.length === 0) return '';
  return `The fair figure stands for ${low.map((one) => `${share(one)} of ${one.name}’s uplifts`).join(' and ')}: of the rest it says nothing.`;
}
