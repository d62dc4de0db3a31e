import { gradeDensityAt15, gradeNamed } from '#lib/core/density/index.ts';
import {
  createJudgement,
  estimated,
  indexOf,
  judge,
  judgeDistance,
  judgeRange,
  limitBases,
  measured,
  notJudged,
  outside,
  type Limit
} from '#lib/core/reconciliation/index.ts';
import {
  floorUnknownTypeKg,
  limitsAt,
  widthFor,
  type LimitSet,
  type LimitWidth,
  type Settings
} from '#lib/data/settings/index.ts';
import type { Computed } from './computed.ts';
import { limitCheckBits } from './limit-checks.ts';
import type { SourceRows } from './rows.ts';
import { createVerdicts, type Verdicts } from './verdicts.ts';

/** A recorded figure that was rounded to whole kilograms agrees with the recomputed one within this. */
const recordedAgreementKg = 1;
/** Tank readings are rounded each for itself: half a step a tank, four tanks of common layouts. */
const tankStepsAgreement = 2;

/** The floor of a width in kg: as given, or in gauge steps of the type. */
function floorKg(width: LimitWidth, gaugeStepKg: number): number {
  if (width.floorKg !== null) return width.floorKg;
  return Number.isFinite(gaugeStepKg) ? width.floorGaugeSteps * gaugeStepKg : floorUnknownTypeKg;
}

/** Limits by set, type and station, worked out once for each combination that occurs. */
class LimitTable {
  readonly #limits = new Map<number, Limit>();
  readonly #source: SourceRows;
  readonly #gaugeStepOfType: Float64Array;
  readonly #sets: readonly LimitSet[];

  constructor(source: SourceRows, settings: Settings) {
    this.#source = source;
    this.#sets = settings.limitSets;
    const steps = new Map(settings.types.map((type) => [type.code, type.gaugeStepKg]));
    const texts = source.columns.code('type').dictionary.texts();
    this.#gaugeStepOfType = Float64Array.from(texts, (text) => steps.get(text) ?? NaN);
  }

  gaugeStep(type: number): number {
    return this.#gaugeStepOfType[type] ?? NaN;
  }

  limit(setIndex: number, type: number, station: number): Limit {
    const key = (setIndex * 65_536 + type) * 65_536 + station;
    const known = this.#limits.get(key);
    if (known !== undefined) return known;
    const set = this.#sets[setIndex];
    if (set === undefined)
      throw new RangeError(`limit set: ${setIndex}, need less than ${this.#sets.length}`);
    const typeName = this.#source.columns.code('type').dictionary.text(type);
    const stationName = this.#source.columns.code('station').dictionary.text(station);
    const width = widthFor(set, typeName, stationName);
    const limit = {
      base: indexOf(limitBases, set.base),
      percent: width.percent,
      floorKg: floorKg(width, this.gaugeStep(type))
    };
    this.#limits.set(key, limit);
    return limit;
  }
}

/** Density limits at 15 °C by code of the grade column. */
function gradeRanges(source: SourceRows, settings: Settings): { minimumKgM3: number; maximumKgM3: number }[] {
  return source.columns
    .code('grade')
    .dictionary.texts()
    .map((text) => {
      const grade = gradeNamed(text);
      if (grade === undefined) return { minimumKgM3: NaN, maximumKgM3: NaN };
      return gradeDensityAt15(grade, settings.method.arithmetic.edition);
    });
}

/** The findings of a row that hang on its limit set. */
function checksOf(computed: Computed, row: number, set: LimitSet, gaugeStepKg: number): number {
  const beyond = (values: Float64Array, limit: number) =>
    judgeDistance(values[row] ?? NaN, limit) === outside;
  let checks = 0;
  if (beyond(computed.orderDifferenceKg, set.orderedKg)) checks |= limitCheckBits.orderedOutside;
  if (beyond(computed.imbalanceKg, set.imbalanceKg ?? NaN)) checks |= limitCheckBits.imbalanceOutside;
  if (beyond(computed.certificateDifferenceKgM3, set.certificateKgM3))
    checks |= limitCheckBits.certificateOutside;
  if (beyond(computed.tankSplitKg, tankStepsAgreement * gaugeStepKg)) checks |= limitCheckBits.tanksDisagree;
  if (beyond(computed.recordedUpliftDifferenceKg, recordedAgreementKg)) {
    checks |= limitCheckBits.recordedUpliftDiffers;
  }
  if (beyond(computed.recordedDiscrepancyDifferenceKg, recordedAgreementKg)) {
    checks |= limitCheckBits.recordedDiscrepancyDiffers;
  }
  return checks;
}

/** Verdicts of every record by the limits in force on its day. Masses stay as they are. */
export function judgeRecords(
  source: SourceRows,
  computed: Computed,
  slip: Uint8Array,
  settings: Settings
): Verdicts {
  const verdicts = createVerdicts(source.rowCount);
  const table = new LimitTable(source, settings);
  const grades = gradeRanges(source, settings);
  const times = source.columns.valuesOf('time');
  const types = source.columns.code('type').codes();
  const stations = source.columns.code('station').codes();
  const gradeCodes = source.columns.code('grade').codes();
  // A suspected slip is one under whichever limits.
  for (let row = 0; row < source.rowCount; row++) {
    if (slip[row] === 1) verdicts.checks[row] = limitCheckBits.suspectedSlip;
  }
  const departures = source.columns.valuesOf('departureFuel');
  const judgement = createJudgement();
  let set: LimitSet | null = null;
  let setIndex = -1;
  let heldFrom = Infinity;
  let heldUntil = -Infinity;
  for (let row = 0; row < source.rowCount; row++) {
    const time = times[row] ?? NaN;
    if (!(time >= heldFrom && time <= heldUntil)) {
      // Rows of one period follow each other, so that the search is made once a period.
      set = limitsAt(settings.limitSets, time);
      setIndex = set === null ? -1 : settings.limitSets.indexOf(set);
      heldFrom = time;
      heldUntil = set?.untilMs ?? (settings.limitSets.length === 1 ? Infinity : time);
      if (settings.limitSets.length === 1) heldFrom = set?.fromMs ?? -Infinity;
    }
    if (set === null) continue;
    verdicts.limitSet[row] = setIndex + 1;
    const type = types[row] ?? 0;
    verdicts.checks[row] = (verdicts.checks[row] ?? 0) | checksOf(computed, row, set, table.gaugeStep(type));
    const range = grades[gradeCodes[row] ?? 0];
    if (
      range !== undefined &&
      judgeRange(computed.density15KgM3[row] ?? NaN, range.minimumKgM3, range.maximumKgM3) === outside
    ) {
      verdicts.checks[row] = (verdicts.checks[row] ?? 0) | limitCheckBits.gradeOutside;
    }
    judge(
      computed.discrepancyKg[row] ?? NaN,
      computed.refuellingMassKg[row] ?? NaN,
      computed.expectedDepartureKg[row] ?? NaN,
      departures[row] ?? NaN,
      table.limit(setIndex, type, stations[row] ?? 0),
      computed.uncertaintyKg[row] ?? NaN,
      judgement
    );
    verdicts.limitKg[row] = judgement.limitKg;
    verdicts.limitBaseKg[row] = judgement.baseKg;
    verdicts.verdict[row] = isCounted(computed, row, settings) ? judgement.verdict : notJudged;
    verdicts.withinUncertainty[row] =
      verdicts.verdict[row] === outside && judgement.isWithinUncertainty ? 1 : 0;
  }
  return verdicts;
}

/** True where a record's quality lets it into verdicts, rates and means. */
export function isCounted(computed: Computed, row: number, settings: Settings): boolean {
  const quality = computed.quality[row];
  return quality === measured || (settings.method.countEstimated && quality === estimated);
}
