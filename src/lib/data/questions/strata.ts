import { quantilesUnsorted } from '#lib/core/statistics/index.ts';
import { rowsByCode } from '#lib/data/columns/index.ts';
import type { QuestionContext } from './context.ts';

/** One thing by which uplifts are sorted into strata: a code per row of the ledger. */
export interface StratumPart {
  readonly codes: Uint32Array;
  readonly count: number;
}

/** Seasons of three months, UTC; code 0 is "not recorded". */
export const seasonNames = ['', 'Dec to Feb', 'Mar to May', 'Jun to Aug', 'Sep to Nov'] as const;

/** Parts of one context, made when first asked for. */
const kept = new WeakMap<QuestionContext, Map<string, StratumPart>>();

function keptPart(context: QuestionContext, name: string, make: () => StratumPart): StratumPart {
  const parts = kept.get(context) ?? new Map<string, StratumPart>();
  kept.set(context, parts);
  const known = parts.get(name);
  if (known !== undefined) return known;
  const part = make();
  parts.set(name, part);
  return part;
}

/** The season of each row, by a table over months. */
export function seasonPart(context: QuestionContext): StratumPart {
  return keptPart(context, 'season', () => {
    const months = context.group('month');
    const seasonOf = Uint8Array.from({ length: months.count }, (_none, code) => {
      const month = Number(months.name(code).slice(5));
      return code === 0 ? 0 : 1 + Math.floor((month % 12) / 3);
    });
    return { codes: months.codes.map((code) => seasonOf[code] ?? 0), count: seasonNames.length };
  });
}

/** Type, size band and season of each row as one code: what makes refuellings alike where rates are compared. */
export function likePart(context: QuestionContext): StratumPart {
  return keptPart(context, 'like', () => {
    const [type, size, season] = [context.group('type'), context.group('size'), seasonPart(context)];
    const codes = new Uint32Array(season.codes.length);
    for (let row = 0; row < codes.length; row++) {
      const ofType = (type.codes[row] as number) * size.count + (size.codes[row] as number);
      codes[row] = ofType * season.count + (season.codes[row] as number);
    }
    return { codes, count: type.count * size.count * season.count };
  });
}

/** Size bands of a type: its refuellings in quarters by metered mass, so that each type has four that it fills. */
export interface TypeQuarters extends StratumPart {
  /** Upper edges of the first three quarters of a type, kg; NaN where it has no mass. */
  readonly edgesKg: (type: number) => readonly [number, number, number];
}

/** Which quarter of its type each row's metered mass is in, from 1; 0 without a mass. */
export function quarterPart(context: QuestionContext): TypeQuarters {
  const edges = edgesOf(context);
  const part = keptPart(context, 'quarter', () => {
    const { refuellingMassKg } = context.ledger.computed;
    const types = context.group('type').codes;
    const codes = new Uint32Array(types.length);
    for (let row = 0; row < codes.length; row++) {
      const mass = refuellingMassKg[row] ?? NaN;
      if (!(mass > 0)) continue;
      const at = 3 * (types[row] ?? 0);
      codes[row] =
        mass < (edges[at] ?? NaN)
          ? 1
          : mass < (edges[at + 1] ?? NaN)
            ? 2
            : mass < (edges[at + 2] ?? NaN)
              ? 3
              : 4;
    }
    return { codes, count: 5 };
  });
  return {
    ...part,
    edgesKg: (type) => [edges[3 * type] ?? NaN, edges[3 * type + 1] ?? NaN, edges[3 * type + 2] ?? NaN]
  };
}

const keptEdges = new WeakMap<QuestionContext, Float64Array>();

/** Quartiles of the metered mass of each type over all refuellings in hand, so that a filter does not move them. */
function edgesOf(context: QuestionContext): Float64Array {
  const known = keptEdges.get(context);
  if (known !== undefined) return known;
  const { refuellingMassKg } = context.ledger.computed;
  const types = context.group('type');
  const { rows, starts } = rowsByCode(types.codes, types.count, context.select({}).refuellings);
  const edges = new Float64Array(3 * types.count).fill(NaN);
  for (let type = 0; type < types.count; type++) {
    const masses = Float64Array.from(
      rows.subarray(starts[type], starts[type + 1]),
      (row) => refuellingMassKg[row] ?? NaN
    ).filter((mass) => mass > 0);
    if (masses.length > 0) edges.set(quantilesUnsorted(masses, [0.25, 0.5, 0.75]), 3 * type);
  }
  keptEdges.set(context, edges);
  return edges;
}

export interface Strata {
  /** Code of each of the rows asked about, in their order. */
  readonly codes: Uint32Array;
  readonly count: number;
  /** The code of one part in a stratum, parts in the order they were given. */
  readonly partOf: (stratum: number, part: number) => number;
}

// Above this many combinations a table of them all would cost more than looking each up.
const mostInTable = 1 << 20;

/** The code of a combination, the next free one where it is new. */
function numbering(combinations: number): (key: number) => number {
  let next = 0;
  if (combinations <= mostInTable) {
    const table = new Int32Array(combinations).fill(-1);
    return (key) => {
      const known = table[key] as number;
      return known >= 0 ? known : (table[key] = next++);
    };
  }
  const found = new Map<number, number>();
  return (key) => {
    const known = found.get(key);
    if (known !== undefined) return known;
    found.set(key, next);
    return next++;
  };
}

/** Sorts rows into the strata that they fill: every combination of the parts' codes that is met. */
export function crossStrata(parts: readonly StratumPart[], rows: Uint32Array): Strata {
  const codes = new Uint32Array(rows.length);
  const codeOf = numbering(parts.reduce((product, part) => product * part.count, 1));
  const firstRows: number[] = [];
  for (let i = 0; i < rows.length; i++) {
    const row = rows[i] as number;
    let key = 0;
    for (const part of parts) key = key * part.count + (part.codes[row] as number);
    const code = codeOf(key);
    if (code === firstRows.length) firstRows.push(row);
    codes[i] = code;
  }
  return {
    codes,
    count: firstRows.length,
    partOf: (stratum, part) => parts[part]?.codes[firstRows[stratum] ?? 0] ?? 0
  };
}
