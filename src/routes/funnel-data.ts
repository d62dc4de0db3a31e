import type { FunnelLimit, FunnelPoint, FunnelWords } from '#lib/charts/funnel.ts';
import type { FunnelCurve, FunnelUnit, FunnelView } from '#lib/data/questions/index.ts';
import { formatCount, formatNumber, formatPercent } from '#lib/ui/format.ts';
import { drawnGroups, groupName } from './rates.ts';

/** The two funnels: the plain rate, drawn in per cent, and observed over expected. */
export type FunnelKind = 'plain' | 'fair';

const scaleOf = (kind: FunnelKind): number => (kind === 'plain' ? 100 : 1);

/** What a funnel's axes and columns are called; `item` is what one mark is. */
export function funnelWords(kind: FunnelKind, item: string, target: number): FunnelWords {
  const common = { item, n: 'Judged', observed: 'Outside', expected: 'Expected', split: 'Suspected slips' };
  return kind === 'plain'
    ? {
        ...common,
        value: 'Rate outside limits',
        unit: '%',
        form: { decimals: 1 },
        size: 'Judged refuellings',
        target: `all ${formatPercent(target)}`
      }
    : {
        ...common,
        value: 'Outside over expected',
        unit: '',
        form: { decimals: 2 },
        size: 'Expected outside limits',
        target: '1: like all'
      };
}

/** The standing of a unit in words and ink. Half: past chance alone, but no further than such units differ. */
function standing(kind: FunnelKind, unit: FunnelUnit, view: FunnelView): Pick<FunnelPoint, 'mark' | 'word'> {
  if (unit.verdict === 'tooFew') return { mark: 'plain', word: 'too few to say' };
  if (unit.verdict !== 'notToldApart') {
    const against = kind === 'plain' ? 'all together' : 'what was to be expected';
    return { mark: 'ringed', word: `${unit.verdict} ${against}` };
  }
  return unit.pastChance && view.adjusted
    ? { mark: 'half', word: 'past chance, within the usual spread' }
    : { mark: 'open', word: 'not told apart' };
}

export function funnelPoint(kind: FunnelKind, unit: FunnelUnit, view: FunnelView): FunnelPoint {
  const scale = scaleOf(kind);
  return {
    key: unit.name,
    label: groupName(unit.name),
    size: kind === 'plain' ? unit.judged : unit.expected,
    value: scale * unit.value,
    observed: unit.outside,
    expected: unit.expected,
    n: unit.judged,
    split: unit.slips,
    bounds: unit.bounds.map(({ lower, upper }) => [scale * lower, scale * upper]),
    ...standing(kind, unit, view)
  };
}

function limitLabel({ coverage, widened }: FunnelCurve): string {
  const share = `${formatNumber(coverage * 100, { decimals: coverage === 0.95 ? 0 : 1 })}\u2009%`;
  return widened ? `wide ${share}` : share;
}

/** The limits of a funnel: by chance alone, and in short dashes with the usual spread between units. */
export function funnelLimits(kind: FunnelKind, view: FunnelView): FunnelLimit[] {
  const scale = scaleOf(kind);
  return view.curves.map((curve) => ({
    key: `${curve.widened ? 'wide' : 'chance'}-${String(curve.coverage)}`,
    label: limitLabel(curve),
    short: curve.widened,
    curve: curve.points.map(({ size, lower, upper }) => ({
      size,
      lower: scale * lower,
      upper: scale * upper
    }))
  }));
}

/** The units to draw: small ones of many only where asked for. */
export function drawnUnits(view: FunnelView, all: boolean): readonly FunnelUnit[] {
  return drawnGroups(view.units, all);
}

const few = (names: readonly string[]): string =>
  names.length <= 6 ? names.join(', ') : `${names.slice(0, 6).join(', ')} and ${names.length - 6} more`;

/** Who stands out, as sentences: "Above: JIVA (204 outside, 35 expected)." */
export function funnelSentence(kind: FunnelKind, view: FunnelView): string {
  const told = (verdict: FunnelUnit['verdict']): string[] =>
    view.units
      .filter((unit) => unit.verdict === verdict)
      .toSorted((a, b) => (verdict === 'below' ? a.value - b.value : b.value - a.value))
      .map((unit) =>
        kind === 'plain'
          ? `${groupName(unit.name)} (${formatPercent(unit.value)} of ${formatCount(unit.judged)})`
          : `${groupName(unit.name)} (${formatCount(unit.outside)} outside, ${formatNumber(unit.expected)} expected)`
      );
  const above = told('above');
  const below = told('below');
  if (above.length + below.length === 0) return 'None can be told from all together.';
  return [
    above.length === 0 ? '' : `Above: ${few(above)}.`,
    below.length === 0 ? '' : `Below: ${few(below)}.`
  ]
    .filter((part) => part !== '')
    .join(' ');
}

/** How the spread between units was dealt with, in words. */
export function spreadSentence(kind: FunnelKind, view: FunnelView, units: string): string {
  if (!view.adjusted)
    return view.betweenSpread > 0
      ? `Fewer than ten ${units} with 30 judged: how widely they usually differ cannot be judged, so the limits are those of chance alone.`
      : `The ${units} differ no more than by chance.`;
  const spread =
    kind === 'plain'
      ? `${formatNumber(100 * view.betweenSpread, { decimals: 1 })} percentage points`
      : formatNumber(view.betweenSpread, { decimals: 2 });
  return `Most ${units} differ by more than chance (spread ${spread}): the wide limits allow for it, and only those past that are named.`;
}
