import {
  kindOfLine,
  median,
  offsetOrScale,
  runSteps,
  stretches,
  type Estimated,
  type OffsetOrScale,
  type OffsetOrScaleKind,
  type Steps
} from '#lib/core/statistics/index.ts';
import type { RecordFilter } from '#lib/data/ledger/index.ts';
import type { QuestionContext } from './context.ts';
import { ownDiscrepancies, type OwnDiscrepancies, type OwnSubject } from './own-discrepancy.ts';

/** Whether the discrepancy of one gauge or meter is a constant in kg or a share of the uplift. */
export interface OffsetLine {
  readonly name: string;
  /** The aircraft type whose others it is held against; '' where it is held against all. */
  readonly peers: string;
  readonly n: number;
  readonly kind: OffsetOrScaleKind;
  /** Constant, kg, and share, % of metered mass, less the middle ones of its peers. */
  readonly constantKg: Estimated;
  readonly sharePercent: Estimated;
}

export interface OffsetsAnswer {
  readonly estimable: boolean;
  readonly lines: readonly OffsetLine[];
  /** Names with fewer refuellings than a line is drawn from. */
  readonly leftOut: number;
  /** Standard errors from which a part of the line is told from zero. */
  readonly clearFrom: number;
}

/** Refuellings from which a line is fitted. */
export const fewestForLine = 50;

/** Two parts a line, each told from zero by chance in 0.27 % of steady gauges. */
export const clearFrom = 3;

/** Peers from which the middle one says what all have in common. */
const fewestPeers = 3;

interface Fitted {
  readonly level: number;
  readonly peers: string;
  readonly line: OffsetOrScale;
}

/** The positions of each level's refuellings. */
export function* byLevel(level: Int32Array): Steps<Map<number, number[]>> {
  const found = new Map<number, number[]>();
  yield* stretches(level.length, (from, to) => {
    for (let k = from; k < to; k++) {
      const code = level[k] as number;
      const known = found.get(code);
      if (known === undefined) found.set(code, [k]);
      else known.push(k);
    }
  });
  return found;
}

/** The line of some refuellings; null where they are too few. `valueKg`: what is fitted, by position. */
export function lineOf(
  own: OwnDiscrepancies,
  positions: readonly number[],
  valueKg: (k: number) => number = (k) => own.ownKg[k] ?? NaN
): OffsetOrScale | null {
  const take = (values: Float64Array) => Float64Array.from(positions, (k) => values[k] ?? NaN);
  const line = offsetOrScale(
    take(own.records.massKg),
    Float64Array.from(positions, valueKg),
    take(own.weight)
  );
  return line.estimable && line.n >= fewestForLine ? line : null;
}

/** The middle line of the peers: what a whole type, or all meters, have in common is nobody's own. */
function common(all: readonly Fitted[], peers: string): { constant: number; share: number } {
  const lines = all.filter((each) => each.peers === peers).map(({ line }) => line);
  if (lines.length < fewestPeers) return { constant: 0, share: 0 };
  return {
    constant: median(Float64Array.from(lines, ({ offset }) => offset.value)),
    share: median(Float64Array.from(lines, ({ scale }) => scale.value))
  };
}

function settled(
  { level, peers }: Fitted,
  all: readonly Fitted[],
  own: OwnDiscrepancies,
  positions: readonly number[]
): OffsetLine[] {
  const { constant, share } = common(all, peers);
  const rest = (k: number) => (own.ownKg[k] ?? NaN) - constant - share * (own.records.massKg[k] ?? NaN);
  const line = lineOf(own, positions, rest);
  if (line === null) return [];
  const { offset, scale } = line;
  return [
    {
      name: own.nameOf(level),
      peers,
      n: line.n,
      kind: kindOfLine(line, clearFrom),
      constantKg: offset,
      sharePercent: { value: 100 * scale.value, error: 100 * scale.error }
    }
  ];
}

/** Of every gauge or meter with refuellings enough: a constant in kg, a share of the uplift, or cannot tell. */
export function offsets(
  context: QuestionContext,
  asked: { readonly filter: RecordFilter; readonly subject: OwnSubject }
): OffsetsAnswer {
  return runSteps(offsetsSteps(context, asked));
}

/** The same in steps. */
export function* offsetsSteps(
  context: QuestionContext,
  asked: { readonly filter: RecordFilter; readonly subject: OwnSubject }
): Steps<OffsetsAnswer> {
  const own = yield* ownDiscrepancies(context, asked.filter, asked.subject);
  if (own === null) return { estimable: false, lines: [], leftOut: 0, clearFrom };
  const type = context.ledger.source.columns.code('type');
  const levels = yield* byLevel(own.level);
  const fitted: Fitted[] = [];
  for (const [level, positions] of levels) {
    const line = lineOf(own, positions);
    const row = own.records.rows[positions[0] ?? -1] ?? -1;
    if (line !== null) fitted.push({ level, peers: asked.subject === 'tail' ? type.text(row) : '', line });
    yield;
  }
  const lines: OffsetLine[] = [];
  for (const each of fitted) {
    lines.push(...settled(each, fitted, own, levels.get(each.level) ?? []));
    yield;
  }
  return {
    estimable: true,
    lines: lines.sort((p, q) =>
      p.peers === q.peers ? q.constantKg.value - p.constantKg.value : p.peers < q.peers ? -1 : 1
    ),
    leftOut: levels.size - fitted.length,
    clearFrom
  };
}
