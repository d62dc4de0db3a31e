import { poissonExact, rateRatio } from '#lib/core/statistics/index.ts';
import type { CheckFieldName, NameFieldName } from '#lib/data/record/index.ts';
import type { RecordFilter } from '#lib/data/ledger/index.ts';
import type { QuestionContext } from './context.ts';
import { samples, type SampleGroup } from './samples.ts';

/** Failures of one supplier per check with a result, and how they compare. */
export interface FailureRatio {
  readonly name: string;
  readonly failed: number;
  readonly results: number;
  /** Failures per check with a result, and the exact Poisson interval. NaN where no check has a result. */
  readonly rate: number;
  readonly lower: number;
  readonly upper: number;
  /** Its rate over that of the side it is compared with; NaN without a failure on either side. */
  readonly ratio: number;
  readonly ratioLower: number;
  readonly ratioUpper: number;
  readonly pValue: number;
  readonly againstFailed: number;
  readonly againstResults: number;
  /** False below 100 checks with a result a side, or 5 failures together. */
  readonly enough: boolean;
}

export interface SampleRatioAnswer {
  readonly by: NameFieldName;
  /** Against whom; '' is all others together. */
  readonly against: string;
  readonly groups: readonly FailureRatio[];
}

/** From so many on each side, and so many failures together, two rates are compared. */
const fewestResults = 100;
const fewestFailures = 5;

interface Counts {
  readonly failed: number;
  readonly results: number;
}

const countsOf = (group: SampleGroup): Counts => ({
  failed: group.failed,
  results: group.passed + group.failed
});

function compare(name: string, own: Counts, other: Counts): FailureRatio {
  const hasBoth = own.results > 0 && other.results > 0;
  const rate = own.results > 0 ? poissonExact(own.failed, own.results) : { lower: NaN, upper: NaN };
  const ratio = hasBoth
    ? rateRatio(own.failed, own.results, other.failed, other.results)
    : { ratio: NaN, lower: NaN, upper: NaN, pValue: NaN };
  return {
    name,
    ...own,
    rate: own.failed / own.results,
    lower: rate.lower,
    upper: rate.upper,
    ratio: ratio.ratio,
    ratioLower: ratio.lower,
    ratioUpper: ratio.upper,
    pValue: ratio.pValue,
    againstFailed: other.failed,
    againstResults: other.results,
    enough:
      Math.min(own.results, other.results) >= fewestResults && own.failed + other.failed >= fewestFailures
  };
}

/**
 * How often one check fails with each supplier against all others together, or against one of them: the ratio of two
 * Poisson rates with its exact 95 % interval.
 */
export function sampleRatio(
  context: QuestionContext,
  asked: {
    readonly filter: RecordFilter;
    readonly by: NameFieldName;
    readonly check: CheckFieldName;
    readonly against: string;
  }
): SampleRatioAnswer {
  const { groups, all } = samples(context, asked);
  const whole = countsOf(all);
  const one = groups.find(({ name }) => name === asked.against && name !== '');
  return {
    by: asked.by,
    against: one?.name ?? '',
    groups: groups
      .filter((group) => group !== one && group.passed + group.failed > 0)
      .map((group) => {
        const own = countsOf(group);
        const others = { failed: whole.failed - own.failed, results: whole.results - own.results };
        return compare(group.name, own, one === undefined ? others : countsOf(one));
      })
  };
}
