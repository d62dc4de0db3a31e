import { compareStratified } from '#lib/core/statistics/index.ts';
import type { RecordFilter } from '#lib/data/ledger/index.ts';
import type { QuestionContext } from './context.ts';
import type { NameCount } from './names.ts';
import { rateBits, ratesOf } from './rates.ts';
import type { Strata } from './strata.ts';
import {
  stationsOf,
  stepsOf,
  strataOf,
  supplierStrata,
  type ComparedStratum,
  type ComparisonStep,
  type SharedStation
} from './supplier-strata.ts';
import {
  commonOf,
  compareSides,
  mergeSides,
  rateStrata,
  sumSides,
  total,
  type ComparedSides,
  type Measure,
  type Side,
  type TwoSides
} from './two-sides.ts';

/** Refuellings of one supplier, and how many of them have a counterpart in the other's. */
export interface SupplierOverlap {
  readonly name: string;
  readonly refuellings: number;
  readonly common: number;
}

/** Why no fair figure is given. */
export type Refusal = 'oneSupplier' | 'noCommon' | 'fewUplifts' | 'fewEvents' | 'thinOverlap';

/** The plain and the fair difference of two suppliers, the fair one null where it is refused. */
export interface SupplierPair {
  readonly a: string;
  readonly b: string;
  readonly refusal: Refusal | null;
  readonly plain: ComparedSides;
  readonly fair: ComparedSides | null;
}

export interface SuppliersAnswer {
  readonly measure: Measure;
  /** Suppliers in the records asked about. */
  readonly suppliers: readonly NameCount[];
  /** Each two of the largest. */
  readonly pairs: readonly SupplierPair[];
  readonly a: SupplierOverlap;
  readonly b: SupplierOverlap;
  readonly stations: readonly SharedStation[];
  readonly refusal: Refusal | null;
  /** From the plain difference to the fair one; the plain one alone where it is refused. */
  readonly steps: readonly ComparisonStep[];
  readonly strata: readonly ComparedStratum[];
  /** Mantel-Haenszel odds ratio of a over b and its p, of rates; NaN else. */
  readonly oddsRatio: number;
  readonly pValue: number;
  /** The plain and the fair difference point opposite ways, and at least one of them clearly. */
  readonly reversed: boolean;
}

export interface SuppliersQuestion {
  readonly filter: RecordFilter;
  /** Names; '' leaves the choice to where most can be compared. */
  readonly a: string;
  readonly b: string;
  readonly measure: Measure;
  /** Rows of the forest by season too. */
  readonly bySeason: boolean;
}

/** A comparison needs so many a side, and so many events together. */
const fewestASide = 100;
const fewestEvents = 5;
/**
 * The comparison must stand for so much of at least one supplier's uplifts: one that serves a single station of another's
 * many can be compared there. Common practice, no source.
 */
const leastOverlap = 0.1;
/** Suppliers compared in pairs: the largest. */
const mostTried = 6;

interface Counted {
  readonly rows: Uint32Array;
  /** Supplier code of each row. */
  readonly suppliers: Uint32Array;
  /** 1 outside, 0 not; or per cent of metered mass. */
  readonly values: Float64Array;
}

function countedOf(context: QuestionContext, filter: RecordFilter, measure: Measure): Counted {
  const { flags, percent } = ratesOf(context);
  const { codes } = context.group('supplier');
  const { refuellings } = context.select(filter);
  const wanted = measure === 'rate' ? rateBits.judged : rateBits.measured;
  const rows = new Uint32Array(refuellings.length);
  const suppliers = new Uint32Array(refuellings.length);
  const values = new Float64Array(refuellings.length);
  let count = 0;
  for (let i = 0; i < refuellings.length; i++) {
    const row = refuellings[i] as number;
    const bits = flags[row] as number;
    if ((bits & wanted) === 0 || codes[row] === 0) continue;
    rows[count] = row;
    suppliers[count] = codes[row] as number;
    values[count++] = measure === 'mean' ? (percent[row] as number) : (bits & rateBits.outside) === 0 ? 0 : 1;
  }
  return {
    rows: rows.subarray(0, count),
    suppliers: suppliers.subarray(0, count),
    values: values.subarray(0, count)
  };
}

function refusalOf(a: SupplierOverlap, b: SupplierOverlap, events: number): Refusal | null {
  if (a.refuellings === 0 || b.refuellings === 0) return 'oneSupplier';
  if (a.common === 0 || b.common === 0) return 'noCommon';
  if (Math.min(a.common, b.common) < fewestASide) return 'fewUplifts';
  if (Math.max(a.common / a.refuellings, b.common / b.refuellings) < leastOverlap) return 'thinOverlap';
  return events < fewestEvents ? 'fewEvents' : null;
}

/** Two differences neither of which can be told from zero have no direction to reverse. */
function isReversed(plain: ComparedSides, fair: ComparedSides): boolean {
  if (!(plain.difference * fair.difference < 0)) return false;
  return [plain, fair].some(({ lower, upper }) => lower > 0 || upper < 0);
}

/** How much of two suppliers can be compared, and whether that is enough. */
function overlapOf(
  sides: TwoSides,
  names: readonly [string, string],
  measure: Measure
): Pick<SuppliersAnswer, 'a' | 'b' | 'refusal'> {
  const all = [...sides[0].count.keys()];
  const common = commonOf(sides, all);
  const of = (side: 0 | 1): SupplierOverlap => ({
    name: names[side],
    refuellings: total(sides[side].count, all),
    common: total(sides[side].count, common)
  });
  const [a, b] = [of(0), of(1)];
  const events = total(sides[0].sum, common) + total(sides[1].sum, common);
  return { a, b, refusal: refusalOf(a, b, measure === 'rate' ? events : fewestEvents) };
}

/** Plain and fair difference of two suppliers. */
function pairOf(
  strata: Strata,
  sides: TwoSides,
  names: readonly [string, string],
  measure: Measure
): SupplierPair {
  const { a, b, refusal } = overlapOf(sides, names, measure);
  const plain = compareSides(mergeSides(sides, new Uint8Array(strata.count), 1), measure, [0]);
  return {
    a: a.name,
    b: b.name,
    refusal,
    plain,
    fair: refusal === null ? compareSides(sides, measure, [...sides[0].count.keys()]) : null
  };
}

/** Every pair of the suppliers tried, in the order of their sizes. */
function pairsOf(
  strata: Strata,
  sides: readonly Side[],
  names: readonly string[],
  measure: Measure
): SupplierPair[] {
  return sides.flatMap((a, p) =>
    sides
      .slice(p + 1)
      .map((b, q) => pairOf(strata, [a, b], [names[p] ?? '', names[p + 1 + q] ?? ''], measure))
  );
}

/** The names asked for; else the pair whose comparison is worth most; else the largest two. */
function chosenNames(
  asked: SuppliersQuestion,
  pairs: readonly SupplierPair[],
  names: readonly string[]
): readonly [string, string] {
  if (asked.a !== '' && asked.b !== '' && asked.a !== asked.b) return [asked.a, asked.b];
  const worth = (pair: SupplierPair): number => pair.fair?.weight ?? 0;
  const best = pairs.toSorted((p, q) => worth(q) - worth(p))[0];
  return best === undefined ? [names[0] ?? '', names[1] ?? ''] : [best.a, best.b];
}

/** Suppliers with anything to compare, largest first. */
function bySize(counted: Counted, names: (code: number) => string, count: number): NameCount[] {
  const sizes = new Float64Array(count);
  for (const code of counted.suppliers) sizes[code] = (sizes[code] ?? 0) + 1;
  return [...sizes.keys()]
    .filter((code) => (sizes[code] ?? 0) > 0)
    .map((code) => ({ name: names(code), refuellings: sizes[code] ?? 0 }))
    .sort((p, q) => q.refuellings - p.refuellings || (p.name < q.name ? -1 : 1));
}

/**
 * Two suppliers compared like for like: within strata of station, type, quarter of the type's uplifts by size, and
 * season, over the strata both have; the plain difference beside it. Refused where too little can be compared.
 */
export function suppliers(context: QuestionContext, asked: SuppliersQuestion): SuppliersAnswer {
  const { measure } = asked;
  const counted = countedOf(context, asked.filter, measure);
  const grouping = context.group('supplier');
  const strata = supplierStrata(context, counted.rows);
  const offered = bySize(counted, grouping.name, grouping.count);
  const largest = offered.slice(0, mostTried).map(({ name }) => name);
  const tried = [...new Set([...largest, asked.a, asked.b])].filter((name) => name !== '');
  const sideOfCode = Uint8Array.from({ length: grouping.count }, (_none, code) => {
    const place = tried.indexOf(grouping.name(code));
    return place < 0 ? tried.length : place;
  });
  const sides = sumSides(
    strata,
    Uint8Array.from(counted.suppliers, (code) => sideOfCode[code] ?? tried.length),
    tried.length,
    counted.values
  );
  const pairs = pairsOf(strata, sides.slice(0, largest.length), largest, measure);
  const names = chosenNames(asked, pairs, largest);
  const nobody = { count: new Float64Array(0), sum: new Float64Array(0), squares: new Float64Array(0) };
  const side = (name: string): Side => sides[tried.indexOf(name)] ?? nobody;
  const chosen: TwoSides = [side(names[0]), side(names[1])];
  return { measure, suppliers: offered, pairs, ...comparisonOf(context, strata, chosen, names, asked) };
}

/** All that is said of the chosen two. */
function comparisonOf(
  context: QuestionContext,
  strata: Strata,
  sides: TwoSides,
  names: readonly [string, string],
  asked: SuppliersQuestion
): Omit<SuppliersAnswer, 'measure' | 'suppliers' | 'pairs'> {
  const { measure } = asked;
  const overlap = overlapOf(sides, names, measure);
  const isRefused = overlap.refusal !== null;
  const steps = stepsOf(strata, sides, measure);
  const common = commonOf(sides, [...sides[0].count.keys()]);
  const odds = measure === 'rate' && !isRefused ? compareStratified(rateStrata(sides, common)) : null;
  const [plain, fair] = [steps[0], steps.at(-1)];
  return {
    ...overlap,
    stations: stationsOf(context, strata, sides),
    steps: isRefused ? steps.slice(0, 1) : steps,
    strata: isRefused ? [] : strataOf(context, strata, sides, asked),
    oddsRatio: odds?.estimable === true ? odds.oddsRatio : NaN,
    pValue: odds?.estimable === true ? odds.pValue : NaN,
    reversed: !isRefused && plain !== undefined && fair !== undefined && isReversed(plain, fair)
  };
}
