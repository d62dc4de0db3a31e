import { gradeCodes, gradeDensityAt15, gradeLimits, gradeNamed } from '#lib/core/density/index.ts';
import { rowsByCode } from '#lib/data/columns/index.ts';
import { quantilesUnsorted } from '#lib/core/statistics/index.ts';
import type { GroupKey, RecordFilter } from '#lib/data/ledger/index.ts';
import type { QuestionContext } from './context.ts';

/** Density at 15 °C of one group of tickets, kg/m³. NaN where there is nothing to say. */
export interface DensityGroup {
  readonly name: string;
  readonly tickets: number;
  /** Tickets with a density at 15 °C, measured. */
  readonly n: number;
  /** Quantiles by the type 7 rule. */
  readonly q05: number;
  readonly q25: number;
  readonly q50: number;
  readonly q75: number;
  readonly q95: number;
  readonly minimum: number;
  readonly maximum: number;
  readonly mean: number;
  readonly spread: number;
  /** Different values as typed in the observed density, and the share of the most frequent of them. */
  readonly distinctObserved: number;
  readonly mostFrequentShare: number;
  readonly mostFrequentKgM3: number;
  /** Tickets with a certificate density, the mean difference to it, and how many are beyond the limit. */
  readonly certificates: number;
  readonly certificateMean: number;
  readonly certificateOutside: number;
  /** Single values where the group is too small for a strip. */
  readonly values: readonly number[];
}

/** Groups below this size are shown as single dots. */
export const fewestForStrip = 10;

/** Values that differ, as found among typed figures: more are no typed figures, and are sorted instead. */
const mostDistinct = 1 << 14;

/** A code for each different value of a column, counted from 1; 0 is missing. Null where there are too many. */
interface ValueCodes {
  readonly codes: Uint16Array;
  /** Values by code, ascending. */
  readonly values: Float64Array;
}

const codesKept = new WeakMap<QuestionContext, ValueCodes | null>();

function observedCodes(context: QuestionContext): ValueCodes | null {
  const kept = codesKept.get(context);
  if (kept !== undefined) return kept;
  const found = valueCodes(context.ledger.source.columns.valuesOf('densityObserved'));
  codesKept.set(context, found);
  return found;
}

function valueCodes(column: Float64Array): ValueCodes | null {
  const distinct = new Set<number>();
  for (let row = 0; row < column.length; row++) {
    const value = column[row] ?? NaN;
    if (!Number.isNaN(value)) distinct.add(value);
    if (distinct.size >= mostDistinct) return null;
  }
  const values = Float64Array.from([NaN, ...distinct])
    .sort()
    .subarray(0, distinct.size);
  const codeOf = new Map<number, number>();
  values.forEach((value, i) => codeOf.set(value, i + 1));
  const codes = new Uint16Array(column.length);
  for (let row = 0; row < column.length; row++) codes[row] = codeOf.get(column[row] ?? NaN) ?? 0;
  return { codes, values };
}

interface Repeats {
  readonly distinct: number;
  readonly share: number;
  readonly value: number;
}

/** How many typed values of some rows differ, and which share the most frequent one has, the least of them if level. */
function repeatsOf({ codes, values }: ValueCodes, rows: Uint32Array): Repeats {
  const counts = new Uint32Array(values.length + 1);
  for (let i = 0; i < rows.length; i++) {
    const code = codes[rows[i] ?? 0] ?? 0;
    counts[code] = (counts[code] ?? 0) + 1;
  }
  let distinct = 0;
  let best = 0;
  let total = 0;
  let bestValue = NaN;
  for (let code = 1; code < counts.length; code++) {
    const count = counts[code] ?? 0;
    if (count > 0) distinct++;
    total += count;
    if (count <= best) continue;
    best = count;
    bestValue = values[code - 1] ?? NaN;
  }
  return { distinct, share: total === 0 ? NaN : best / total, value: bestValue };
}

/** The same by sorting `values`. */
function repeats(values: Float64Array): Repeats {
  values.sort();
  let distinct = 0;
  let best = 0;
  let bestValue = NaN;
  for (let i = 0; i < values.length;) {
    let end = i + 1;
    while (end < values.length && values[end] === values[i]) end++;
    distinct++;
    if (end - i > best) {
      best = end - i;
      bestValue = values[i] ?? NaN;
    }
    i = end;
  }
  return { distinct, share: values.length === 0 ? NaN : best / values.length, value: bestValue };
}

/** The present values of a column on some rows. */
function present(values: Float64Array, rows: Uint32Array): Float64Array {
  const found = new Float64Array(rows.length);
  let n = 0;
  for (let i = 0; i < rows.length; i++) {
    const value = values[rows[i] ?? 0] ?? NaN;
    if (!Number.isNaN(value)) found[n++] = value;
  }
  return found.subarray(0, n);
}

function rangeOf(values: Float64Array): { minimum: number; maximum: number } {
  let minimum = Infinity;
  let maximum = -Infinity;
  for (let i = 0; i < values.length; i++) {
    const value = values[i] ?? NaN;
    if (value < minimum) minimum = value;
    if (value > maximum) maximum = value;
  }
  return values.length === 0 ? { minimum: NaN, maximum: NaN } : { minimum, maximum };
}

function countBeyond(values: Float64Array, limit: number): number {
  let count = 0;
  for (let i = 0; i < values.length; i++) if (Math.abs(values[i] ?? NaN) > limit) count++;
  return count;
}

function meanOf(values: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < values.length; i++) sum += values[i] ?? NaN;
  return values.length === 0 ? NaN : sum / values.length;
}

function spreadOf(values: Float64Array, mean: number): number {
  let squares = 0;
  for (let i = 0; i < values.length; i++) squares += ((values[i] ?? NaN) - mean) ** 2;
  return values.length < 2 ? NaN : Math.sqrt(squares / (values.length - 1));
}

function groupOf(context: QuestionContext, rows: Uint32Array, name: string, limitKgM3: number): DensityGroup {
  const { computed, source } = context.ledger;
  const densities = present(computed.density15KgM3, rows);
  const certificate = present(computed.certificateDifferenceKgM3, rows);
  const [q05 = NaN, q25 = NaN, q50 = NaN, q75 = NaN, q95 = NaN] = quantilesUnsorted(
    densities,
    [0.05, 0.25, 0.5, 0.75, 0.95]
  );
  const typed = observedCodes(context);
  const observed =
    typed === null
      ? repeats(present(source.columns.valuesOf('densityObserved'), rows))
      : repeatsOf(typed, rows);
  const range = rangeOf(densities);
  const mean = meanOf(densities);
  return {
    name,
    tickets: rows.length,
    n: densities.length,
    q05,
    q25,
    q50,
    q75,
    q95,
    ...range,
    mean,
    spread: spreadOf(densities, mean),
    distinctObserved: observed.distinct,
    mostFrequentShare: observed.share,
    mostFrequentKgM3: observed.value,
    certificates: certificate.length,
    certificateMean: meanOf(certificate),
    certificateOutside: countBeyond(certificate, limitKgM3),
    values: densities.length < fewestForStrip ? [...densities.sort()] : []
  };
}

export interface DensityAnswer {
  readonly by: GroupKey;
  readonly groups: readonly DensityGroup[];
  readonly all: DensityGroup;
  /** The certificate limit the counts were made with. */
  readonly certificateLimitKgM3: number;
  /** Density limits at 15 °C of the grades among the records. */
  readonly grades: readonly {
    readonly title: string;
    readonly minimumKgM3: number;
    readonly maximumKgM3: number;
  }[];
}

/** Density limits of the grades that the selected tickets name. */
function gradesOf(context: QuestionContext, rows: Uint32Array): DensityAnswer['grades'] {
  const column = context.ledger.source.columns.code('grade');
  const codes = column.codes();
  const present = new Set<number>();
  for (const row of rows) present.add(codes[row] ?? 0);
  const named = new Set([...present].map((code) => gradeNamed(column.dictionary.text(code))));
  return gradeCodes
    .filter((grade) => named.has(grade))
    .map((grade) => ({
      title: gradeLimits[grade].title,
      ...gradeDensityAt15(grade, context.settings.method.arithmetic.edition)
    }));
}

/** Density at 15 °C per group. Tickets, not refuellings: each has a density of its own. */
export function density(
  context: QuestionContext,
  asked: { readonly filter: RecordFilter; readonly by: GroupKey }
): DensityAnswer {
  const { rows } = context.select(asked.filter);
  const grouping = context.group(asked.by);
  const limitKgM3 = context.settings.limitSets.at(-1)?.certificateKgM3 ?? NaN;
  const sorted = rowsByCode(grouping.codes, grouping.count, rows);
  const groups: DensityGroup[] = [];
  for (let code = 0; code < grouping.count; code++) {
    const ofGroup = sorted.rows.subarray(sorted.starts[code], sorted.starts[code + 1]);
    if (ofGroup.length > 0) groups.push(groupOf(context, ofGroup, grouping.name(code), limitKgM3));
  }
  if (asked.by !== 'month' && asked.by !== 'size') groups.sort((a, b) => (a.name < b.name ? -1 : 1));
  return {
    by: asked.by,
    groups,
    all: groupOf(context, rows, '', limitKgM3),
    certificateLimitKgM3: limitKgM3,
    grades: gradesOf(context, rows)
  };
}
