/**
 * Codes of the reconciliation. The index in a list is the small integer that columns store, so entries are only
 * ever appended. Words for people are in `data/words`.
 */

/** Which density multiplied which volume; the index is the case number, 0 when none could. */
export const densityCases = [
  'none',
  'inLineAtMeter',
  'observedAndMeterTemperature',
  'observedAtOneTemperature',
  'observedWithoutTemperature',
  'density15AndMeterTemperature',
  'netVolumeAndDensity15',
  'density15WithoutTemperature',
  'defaultDensity'
] as const;

/** How far a mass or a discrepancy can be relied on, worst first: the least of two is the quality of both. */
export const qualities = ['notReconcilable', 'estimated', 'measured'] as const;

export const verdicts = ['notJudged', 'within', 'outside'] as const;

/** How the observed density was read; decides the glass correction. */
export const densityMethods = ['notStated', 'hydrometer', 'densitometer', 'inLine'] as const;

/** What an ordered amount means: fuel on board at departure, or fuel to be added. */
export const orderedBases = ['notStated', 'totalOnBoard', 'amountToAdd'] as const;

/** Of what a limit's percentage is taken. */
export const limitBases = ['meteredMass', 'expectedDeparture', 'higherOfExpectedAndIndicated'] as const;

/**
 * Why a result is not measured: what is missing or impossible first, then what is estimated, then an amount (L or
 * kg) that no aircraft can have. Stored as bits, the bit of a reason being its index, because a record can lack
 * several things.
 */
export const reasons = [
  'volumeMissing',
  'volumeNegative',
  'meterRunsBackwards',
  'densityMissing',
  'density15Missing',
  'densityOutsideRange',
  'temperatureOutsideRange',
  'arrivalFuelMissing',
  'departureFuelMissing',
  'gaugeNegative',
  'groundBurnNegative',
  'defuelledNegative',
  'temperatureMissing',
  'meterTemperatureMissing',
  'defaultDensity',
  'meterRollOver',
  'amountOutsideRange'
] as const;

/** Facts worth a filter that leave the quality as it is. Stored as bits, the bit of a mark being its index. */
export const marks = [
  'groundBurnNotRecorded',
  'groundBurnFromMinutes',
  'glassCorrected',
  'temperatureShared',
  'netBaseAssumed',
  'certificateDensityUsed',
  'densityImplausible',
  'temperatureImplausible',
  'densityLooksLikeDefault',
  'meterDisagreesWithVolume',
  'netDisagreesWithGross',
  'defuelled',
  'defuelOnly',
  'severalTickets',
  'gaugeFellWhileFuelling'
] as const;

export type DensityCase = (typeof densityCases)[number];
export type Quality = (typeof qualities)[number];
export type Verdict = (typeof verdicts)[number];
export type DensityMethod = (typeof densityMethods)[number];
export type OrderedBasis = (typeof orderedBases)[number];
export type LimitBase = (typeof limitBases)[number];
export type Reason = (typeof reasons)[number];
export type Mark = (typeof marks)[number];

/** The stored integer of a code. */
export const indexOf = <Code extends string>(list: readonly Code[], code: Code): number => list.indexOf(code);

/** The bit of a reason or mark. */
export const bitOf = <Code extends string>(list: readonly Code[], code: Code): number =>
  1 << list.indexOf(code);

/** The codes whose bits are set, in list order. */
export const codesIn = <Code extends string>(list: readonly Code[], bits: number): Code[] =>
  list.filter((_, index) => (bits & (1 << index)) !== 0);
