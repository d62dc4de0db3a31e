import type { QuestionContext } from './context.ts';
import { crossStrata, quarterPart, seasonNames, seasonPart, type Strata } from './strata.ts';
import {
  compareSides,
  mergeSides,
  total,
  type ComparedSides,
  type Measure,
  type TwoSides
} from './two-sides.ts';

/** What uplifts must share to be compared, one thing more at each step; the last is like for like. */
export const sameness = ['nothing', 'station', 'type', 'size', 'season'] as const;
export type Sameness = (typeof sameness)[number];

export interface ComparisonStep extends ComparedSides {
  readonly same: Sameness;
}

/** One row of the forest: a type and size band, of one season or of all. */
export interface ComparedStratum extends ComparedSides {
  readonly type: string;
  /** The metered mass of the band, kg; NaN at the open ends. */
  readonly fromKg: number;
  readonly untilKg: number;
  /** '' for all seasons together. */
  readonly season: string;
}

/** A station that both serve, with the refuellings of each. */
export interface SharedStation {
  readonly name: string;
  readonly nA: number;
  readonly nB: number;
}

/** Rows sorted by all that two uplifts must share to be compared like for like. */
export function supplierStrata(context: QuestionContext, rows: Uint32Array): Strata {
  const parts = [context.group('station'), context.group('type'), quarterPart(context), seasonPart(context)];
  return crossStrata(parts, rows);
}

/** The code of each stratum by some of its parts, in order of first appearance. */
function regroup(strata: Strata, parts: readonly number[]): { codes: Uint32Array; members: number[][] } {
  const found = new Map<string, number>();
  const members: number[][] = [];
  const codes = Uint32Array.from({ length: strata.count }, (_none, stratum) => {
    const key = parts.map((part) => strata.partOf(stratum, part)).join(' ');
    const code = found.get(key) ?? found.size;
    found.set(key, code);
    (members[code] ??= []).push(stratum);
    return code;
  });
  return { codes, members };
}

// Places of the parts in the strata.
const [atStation, atType, atQuarter, atSeason] = [0, 1, 2, 3];

/** From the plain difference to the fair one. */
export function stepsOf(strata: Strata, sides: TwoSides, measure: Measure): ComparisonStep[] {
  return sameness.map((same, shared) => {
    const { codes, members } = regroup(strata, [atStation, atType, atQuarter, atSeason].slice(0, shared));
    const merged = mergeSides(sides, codes, members.length);
    return { same, ...compareSides(merged, measure, [...members.keys()]) };
  });
}

/** The rows of the forest that both sides have, by type, size and, where asked, season. */
export function strataOf(
  context: QuestionContext,
  strata: Strata,
  sides: TwoSides,
  { measure, bySeason }: { readonly measure: Measure; readonly bySeason: boolean }
): ComparedStratum[] {
  const types = context.group('type');
  const quarters = quarterPart(context);
  const { members } = regroup(strata, bySeason ? [atType, atQuarter, atSeason] : [atType, atQuarter]);
  return members
    .map((of) => {
      const first = of[0] ?? 0;
      const [type, quarter] = [strata.partOf(first, atType), strata.partOf(first, atQuarter)];
      const season = bySeason ? strata.partOf(first, atSeason) : 0;
      const edges = quarters.edgesKg(type);
      return {
        order: [quarter, season],
        row: {
          type: types.name(type),
          fromKg: edges[quarter - 2] ?? NaN,
          untilKg: edges[quarter - 1] ?? NaN,
          season: seasonNames[season] ?? '',
          ...compareSides(sides, measure, of)
        }
      };
    })
    .filter(({ row }) => row.weight > 0)
    .sort(
      (p, q) =>
        (p.row.type < q.row.type ? -1 : p.row.type > q.row.type ? 1 : 0) ||
        (p.order[0] ?? 0) - (q.order[0] ?? 0) ||
        (p.order[1] ?? 0) - (q.order[1] ?? 0)
    )
    .map(({ row }) => row);
}

/** The stations that both serve. */
export function stationsOf(context: QuestionContext, strata: Strata, [a, b]: TwoSides): SharedStation[] {
  const { members } = regroup(strata, [atStation]);
  return members
    .map((of) => ({
      name: context.group('station').name(strata.partOf(of[0] ?? 0, atStation)),
      nA: total(a.count, of),
      nB: total(b.count, of)
    }))
    .filter(({ nA, nB }) => nA > 0 && nB > 0)
    .sort((p, q) => (p.name < q.name ? -1 : 1));
}
