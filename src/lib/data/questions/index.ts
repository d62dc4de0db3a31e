import type { Steps } from '#lib/core/statistics/index.ts';
import { attribution, attributionSteps } from './attribution.ts';
import { beforeAfter } from './before-after.ts';
import type { QuestionContext } from './context.ts';
import { densityShapes } from './density-shapes.ts';
import { densitySteps } from './density-steps.ts';
import { densityTemperature } from './density-temperature.ts';
import { density } from './density.ts';
import { discrepancy } from './discrepancy.ts';
import { drift, driftSteps } from './drift.ts';
import { findings, findingsSteps } from './findings.ts';
import { funnels } from './funnels.ts';
import { groupCauses, groupCausesSteps } from './group-causes.ts';
import { limitStudy } from './limit-study.ts';
import { method } from './method.ts';
import { names } from './names.ts';
import { offsets, offsetsSteps } from './offsets.ts';
import { oneGauge, oneGaugeSteps } from './one-gauge.ts';
import { records } from './records.ts';
import { sampleDays } from './sample-days.ts';
import { sampleGaps } from './sample-gaps.ts';
import { sampleRatio } from './sample-ratio.ts';
import { samples } from './samples.ts';
import { scope } from './scope.ts';
import { sectors } from './sectors.ts';
import { series } from './series.ts';
import { sheet } from './sheet.ts';
import { spread } from './spread.ts';
import { suppliers } from './suppliers.ts';

export type { Steps };
export { createContext, type QuestionContext } from './context.ts';
export type { AttributionAnswer, Effect, Meeting } from './attribution.ts';
export type { BeforeAfterAnswer, PartnerStep } from './before-after.ts';
export type { DensityAnswer, DensityGroup } from './density.ts';
export type { DensityShapesAnswer, MonthShape } from './density-shapes.ts';
export type { DensitySeries, DensityStep, DensityStepsAnswer, DensityWeek } from './density-steps.ts';
export type { DensityTemperatureAnswer, TemperatureSlope } from './density-temperature.ts';
export type { Finding, FindingsAnswer } from './findings.ts';
export type { WholeGroup } from './findings/whole-groups.ts';
export type { FunnelCurve, FunnelsAnswer, FunnelUnit, FunnelVerdict, FunnelView } from './funnels.ts';
export type { DriftAnswer, DriftChange, DriftPoint, DriftSeries, DriftSubject } from './drift.ts';
export type { DiscrepancyAnswer, DiscrepancyGroup } from './discrepancy.ts';
export {
  recordRows,
  type GridKey,
  type GridRow,
  type RecordList,
  type RecordOrder,
  type RecordsAnswer,
  type RecordsQuestion
} from './records.ts';
export type { SampleCell, SampleDaysAnswer } from './sample-days.ts';
export type { SampleGap, SampleGapsAnswer } from './sample-gaps.ts';
export type { FailureRatio, SampleRatioAnswer } from './sample-ratio.ts';
export type { SampleGroup, SamplesAnswer } from './samples.ts';
export type { LimitStudyAnswer, LimitStudyBand, StudiedLimit } from './limit-study.ts';
export type { MethodAnswer } from './method.ts';
export type { MethodCheck } from './method-checks.ts';
export type { OffsetLine, OffsetsAnswer } from './offsets.ts';
export type { LevelBand, LevelPanel, OneGaugeAnswer } from './one-gauge.ts';
export type { OwnSubject } from './own-discrepancy.ts';
export type { GroupCausesAnswer, GroupCauseSaid } from './group-causes.ts';
export type { NameCount, NamesAnswer } from './names.ts';
export type { ScopeAnswer } from './scope.ts';
export type { SeriesAnswer, SeriesGroup, SeriesMonth } from './series.ts';
export type { SpreadAnswer, SpreadGroup } from './spread.ts';
export type { ComparedStratum, ComparisonStep, Sameness } from './supplier-strata.ts';
export type { Refusal, SupplierOverlap, SupplierPair, SuppliersAnswer } from './suppliers.ts';
export type { ComparedSides, Measure } from './two-sides.ts';
export type { FittingCause, RecordCauses } from './causes.ts';
export type { MeterLink, Sector, SectorsAnswer } from './sectors.ts';
export type { Sensitivity, SheetAnswer, SheetTicket } from './sheet.ts';

/** Every question a page can ask, by name. A new view adds its question here. */
export const questions = {
  attribution,
  beforeAfter,
  drift,
  findings,
  groupCauses,
  funnels,
  limitStudy,
  method,
  names,
  density,
  densityShapes,
  densitySteps,
  densityTemperature,
  discrepancy,
  offsets,
  oneGauge,
  records,
  sampleDays,
  sampleGaps,
  sampleRatio,
  samples,
  scope,
  sectors,
  series,
  sheet,
  spread,
  suppliers
};

/**
 * Those that may take seconds: studies. A page asks for them when its other answers have landed; they are worked on
 * in steps, and give way to every other question. This list alone decides which they are.
 */
const studies = {
  attribution: attributionSteps,
  drift: driftSteps,
  findings: findingsSteps,
  groupCauses: groupCausesSteps,
  offsets: offsetsSteps,
  oneGauge: oneGaugeSteps
} satisfies {
  readonly [N in QuestionName]?: (context: QuestionContext, asked: Asked<N>) => Steps<Answered<N>>;
};

export type Questions = typeof questions;
export type StudyName = keyof typeof studies;
export type QuestionName = keyof Questions;
export type Asked<N extends QuestionName> = Parameters<Questions[N]>[1];
export type Answered<N extends QuestionName> = ReturnType<Questions[N]>;

/** One question by name with its argument, as it crosses the thread. */
export type AnyQuestion = {
  [N in QuestionName]: { readonly name: N; readonly asked: Asked<N> };
}[QuestionName];

/** Answers a question of the ledger in a context. */
export function answer<N extends QuestionName>(
  context: QuestionContext,
  name: N,
  asked: Asked<N>
): Answered<N> {
  const question = questions[name] as (context: QuestionContext, asked: Asked<N>) => Answered<N>;
  return question(context, asked);
}

export function isStudy(name: QuestionName): name is StudyName {
  return Object.hasOwn(studies, name);
}

/** A study of the ledger in a context, to be driven step by step. */
export function study<N extends StudyName>(
  context: QuestionContext,
  name: N,
  asked: Asked<N>
): Steps<Answered<N>> {
  const begin = studies[name] as unknown as (context: QuestionContext, asked: Asked<N>) => Steps<Answered<N>>;
  return begin(context, asked);
}
