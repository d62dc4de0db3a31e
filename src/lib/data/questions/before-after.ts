import {
  brownForsythe,
  median,
  medianAbsoluteDeviation,
  pairedStep,
  spreadRatio
} from '#lib/core/statistics/index.ts';
import type { NameFieldName } from '#lib/data/record/index.ts';
import type { RecordFilter } from '#lib/data/ledger/index.ts';
import type { QuestionContext } from './context.ts';
import { rateBits, ratesOf } from './rates.ts';

/** One partner (a vehicle of an aircraft, or an aircraft of a vehicle) on both sides of a moment, %. */
export interface PartnerStep {
  readonly name: string;
  readonly nBefore: number;
  readonly nAfter: number;
  readonly beforePercent: number;
  readonly afterPercent: number;
}

export type BeforeAfterAnswer =
  | {
      readonly estimable: false;
      readonly nBefore: number;
      readonly nAfter: number;
    }
  | {
      readonly estimable: true;
      /** Refuellings with the partners that are there on both sides. */
      readonly nBefore: number;
      readonly nAfter: number;
      /** Refuellings left out because their partner is there on one side only. */
      readonly aloneBefore: number;
      readonly aloneAfter: number;
      /** Refuellings too wild to count: beyond four times the robust scatter of their side. */
      readonly wild: number;
      readonly partners: readonly PartnerStep[];
      /** After less before, the partners held equal, %, and its 95 % interval; plus: towards the gauge. */
      readonly differencePercent: number;
      readonly lowerPercent: number;
      readonly upperPercent: number;
      /** Scatter inside partners, %, on each side; after over before with its 95 % interval. */
      readonly scatterBefore: number;
      readonly scatterAfter: number;
      readonly scatterRatio: number;
      readonly scatterLower: number;
      readonly scatterUpper: number;
      /** Chance of scatters this different where nothing changed (Brown-Forsythe); NaN where it cannot be told. */
      readonly scatterChance: number;
    };

const z95 = 1.959964;

/** The stretches that are compared: [fromMs, eventMs) and [resumeMs, untilMs). */
export interface Stretches {
  readonly fromMs: number;
  readonly eventMs: number;
  readonly resumeMs: number;
  readonly untilMs: number;
}

interface Measured {
  readonly values: Float64Array;
  readonly partner: Int32Array;
  readonly side: Uint8Array;
}

function measuredIn(
  context: QuestionContext,
  rows: Uint32Array,
  partnerCodes: Uint32Array,
  { fromMs, eventMs, resumeMs, untilMs }: Stretches
): Measured {
  const { flags, percent } = ratesOf(context);
  const times = context.ledger.source.columns.valuesOf('time');
  const { severalVehicles } = context.ledger.computed;
  const values: number[] = [];
  const partner: number[] = [];
  const side: number[] = [];
  for (let i = 0; i < rows.length; i++) {
    const row = rows[i] ?? 0;
    const time = times[row] ?? NaN;
    const isBefore = time >= fromMs && time < eventMs;
    if (!isBefore && !(time >= resumeMs && time < untilMs)) continue;
    const isMeasured = ((flags[row] ?? 0) & rateBits.measured) !== 0 && severalVehicles[row] !== 1;
    const code = partnerCodes[row] ?? 0;
    if (!isMeasured || code === 0) continue;
    values.push(percent[row] ?? NaN);
    partner.push(code);
    side.push(isBefore ? 0 : 1);
  }
  return {
    values: Float64Array.from(values),
    partner: Int32Array.from(partner),
    side: Uint8Array.from(side)
  };
}

const wildAt = 4;

/** Leaves out what lies beyond four times the robust scatter about the middle of its own side. */
function withoutWild({ values, partner, side }: Measured): Measured {
  const limits = [0, 1].map((each) => {
    const own = values.filter((_value, i) => side[i] === each);
    return { middle: median(own), most: wildAt * medianAbsoluteDeviation(own) };
  });
  const isKept = (i: number) => {
    const { middle = NaN, most = NaN } = limits[side[i] ?? 0] ?? {};
    return Math.abs((values[i] ?? NaN) - middle) <= most;
  };
  return {
    values: values.filter((_value, i) => isKept(i)),
    partner: partner.filter((_code, i) => isKept(i)),
    side: side.filter((_side, i) => isKept(i))
  };
}

/** Some refuellings before and after a moment, only with the partners that are there on both sides. */
export function compareAround(
  context: QuestionContext,
  rows: Uint32Array,
  partnerField: NameFieldName,
  stretches: Stretches
): BeforeAfterAnswer {
  const column = context.ledger.source.columns.code(partnerField);
  const all = measuredIn(context, rows, column.codes(), stretches);
  const { values, partner, side } = withoutWild(all);
  const step = pairedStep(values, partner, side);
  if (!step.estimable) {
    const nAfter = side.reduce((sum, each) => sum + each, 0);
    return { estimable: false, nBefore: side.length - nAfter, nAfter };
  }
  const spreads = spreadRatio(step.spread1, step.df1, step.spread2, step.df2);
  const test = brownForsythe([step.residuals1, step.residuals2]);
  return {
    estimable: true,
    nBefore: step.n1,
    nAfter: step.n2,
    aloneBefore: step.alone1,
    aloneAfter: step.alone2,
    wild: all.values.length - values.length,
    partners: step.strata.map(({ code, n1, n2, mean1, mean2 }) => ({
      name: column.dictionary.text(code),
      nBefore: n1,
      nAfter: n2,
      beforePercent: mean1,
      afterPercent: mean2
    })),
    differencePercent: step.difference,
    lowerPercent: step.difference - z95 * step.standardError,
    upperPercent: step.difference + z95 * step.standardError,
    scatterBefore: step.spread1,
    scatterAfter: step.spread2,
    scatterRatio: spreads.ratio,
    scatterLower: spreads.lower,
    scatterUpper: spreads.upper,
    scatterChance: test.estimable ? test.pValue : NaN
  };
}

const dayMs = 86_400_000;

/** An aircraft before and after a moment with the same vehicles, or a vehicle with the same aircraft. */
export function beforeAfter(
  context: QuestionContext,
  asked: {
    readonly filter: RecordFilter;
    readonly subject: 'tail' | 'vehicle';
    readonly name: string;
    readonly atMs: number;
    /** Days on each side. */
    readonly days: number;
  }
): BeforeAfterAnswer {
  const names = { ...asked.filter.names, [asked.subject]: [asked.name] };
  const { refuellings } = context.select({ ...asked.filter, names });
  return compareAround(context, refuellings, asked.subject === 'tail' ? 'vehicle' : 'tail', {
    fromMs: asked.atMs - asked.days * dayMs,
    eventMs: asked.atMs,
    resumeMs: asked.atMs,
    untilMs: asked.atMs + asked.days * dayMs
  });
}
