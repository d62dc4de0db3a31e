import {
  createJudgement,
  indexOf,
  judge,
  limitBases,
  notJudged,
  outside,
  type Limit as LimitRule
} from '#lib/core/reconciliation/index.ts';
import { normalTwoSided, wilson } from '#lib/core/statistics/index.ts';
import { limitCheckBits, sizeBandName, type RecordFilter } from '#lib/data/ledger/index.ts';
import { exampleLimits, floorUnknownTypeKg, widthFor, type LimitSet } from '#lib/data/settings/index.ts';
import type { QuestionContext } from './context.ts';

/** A limit that is being thought about: nothing is judged by it. */
export type StudiedLimit = Pick<LimitSet, 'base' | 'width' | 'exceptions'>;

/** What a limit does to refuellings of one size. */
export interface LimitStudyBand {
  /** Metered mass, kg: "2000 to 3000". */
  readonly name: string;
  readonly judged: number;
  readonly outside: number;
  readonly rate: number;
  readonly lower: number;
  readonly upper: number;
  /** Share that a gauge and meter within their own uncertainty would break all the same; NaN where it is not known. */
  readonly healthyShare: number;
  /** Refuellings whose uncertainty is known, behind that share. */
  readonly known: number;
}

export interface LimitStudyAnswer {
  readonly bands: readonly LimitStudyBand[];
  readonly all: LimitStudyBand;
}

class Band {
  judged = 0;
  outside = 0;
  healthy = 0;
  known = 0;

  add(isOutside: boolean, chance: number): void {
    this.judged++;
    if (isOutside) this.outside++;
    if (Number.isNaN(chance)) return;
    this.known++;
    this.healthy += chance;
  }

  result(name: string): LimitStudyBand {
    const interval = this.judged > 0 ? wilson(this.outside, this.judged) : { lower: NaN, upper: NaN };
    return {
      name,
      judged: this.judged,
      outside: this.outside,
      rate: this.judged > 0 ? this.outside / this.judged : NaN,
      lower: interval.lower,
      upper: interval.upper,
      healthyShare: this.known > 0 ? this.healthy / this.known : NaN,
      known: this.known
    };
  }
}

/** Gives each row its width as judged with: the exception that fits it best, the floor by the step of its type. */
function widths(context: QuestionContext, studied: StudiedLimit): (row: number) => LimitRule {
  const { settings, ledger } = context;
  const { columns } = ledger.source;
  const types = columns.code('type');
  const stations = columns.code('station');
  const steps = new Map(settings.types.map((type) => [type.code, type.gaugeStepKg]));
  const base = indexOf(limitBases, studied.base);
  const set = { ...exampleLimits, ...studied };
  const known = new Map<string, LimitRule>();
  return (row) => {
    const key = `${types.at(row)} ${stations.at(row)}`;
    const found = known.get(key);
    if (found !== undefined) return found;
    const width = widthFor(set, types.text(row), stations.text(row));
    const step = steps.get(types.text(row));
    const floorKg = width.floorKg ?? (step === undefined ? floorUnknownTypeKg : width.floorGaugeSteps * step);
    const made = { base, percent: width.percent, floorKg };
    known.set(key, made);
    return made;
  };
}

/**
 * What share of the records in hand a limit would flag, by uplift size, beside the share that healthy instruments would
 * break by their own noise: the discrepancy taken as normal around zero with the record's own uncertainty. Suspected
 * slips are left out: no limit is made for them.
 */
export function limitStudy(
  context: QuestionContext,
  asked: { readonly filter: RecordFilter; readonly limit: StudiedLimit }
): LimitStudyAnswer {
  const { ledger, settings } = context;
  const { computed, verdicts, source } = ledger;
  const ruleOf = widths(context, asked.limit);
  const coverage = settings.method.arithmetic.uncertainty.coverageFactor;
  const departures = source.columns.number('departureFuel').values();
  const sizes = context.group('size');
  const bands = Array.from({ length: sizes.count }, () => new Band());
  const all = new Band();
  const judgement = createJudgement();
  for (const row of context.select(asked.filter).refuellings) {
    const isSlip = ((verdicts.checks[row] ?? 0) & limitCheckBits.suspectedSlip) !== 0;
    if (isSlip || !ledger.counts(row)) continue;
    judge(
      computed.discrepancyKg[row] ?? NaN,
      computed.refuellingMassKg[row] ?? NaN,
      computed.expectedDepartureKg[row] ?? NaN,
      departures[row] ?? NaN,
      ruleOf(row),
      NaN,
      judgement
    );
    if (judgement.verdict === notJudged) continue;
    const chance = normalTwoSided((judgement.limitKg * coverage) / (computed.uncertaintyKg[row] ?? NaN));
    const isOutside = judgement.verdict === outside;
    bands[sizes.codes[row] ?? 0]?.add(isOutside, chance);
    all.add(isOutside, chance);
  }
  return {
    bands: bands.map((band, code) => band.result(sizeBandName(code))).filter(({ judged }) => judged > 0),
    all: all.result('')
  };
}
