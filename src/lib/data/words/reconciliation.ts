import type { DensityCase, Mark, Quality, Reason, Verdict } from '#lib/core/reconciliation/index.ts';
import type { CheckState } from '#lib/data/record/index.ts';

/** The words that stand beside every signed discrepancy. */
export const gaugeSaysMore = 'gauge says more';
export const meterSaysMore = 'meter says more';

/** Which side a discrepancy is on, in words; '' for none. */
export function sideWords(discrepancy: number): string {
  if (discrepancy > 0) return gaugeSaysMore;
  return discrepancy < 0 ? meterSaysMore : '';
}

export const verdictWords: Record<Verdict, string> = {
  notJudged: 'not judged',
  within: 'within limits',
  outside: 'outside limits'
};

export const qualityWords: Record<Quality, string> = {
  notReconcilable: 'not reconcilable',
  estimated: 'estimated',
  measured: 'measured'
};

export const densityCaseWords: Record<DensityCase, string> = {
  none: 'none',
  inLineAtMeter: 'in-line density at the meter temperature',
  observedAndMeterTemperature: 'observed density carried to the meter temperature',
  observedAtOneTemperature: 'observed density, sample and meter at one temperature',
  observedWithoutTemperature: 'observed density without a temperature',
  density15AndMeterTemperature: 'density at 15 °C carried to the meter temperature',
  netVolumeAndDensity15: 'net volume with a density at 15 °C',
  density15WithoutTemperature: 'density at 15 °C with gross volume, no temperature',
  defaultDensity: 'default density'
};

/** The words of a stored density case; the index in the record of cases is the stored code. */
export function densityCaseWordsAt(code: number): string {
  return Object.values(densityCaseWords)[code] ?? densityCaseWords.none;
}

/** What is missing, impossible or estimated, as the words after a quality. */
export const reconciliationReasonWords: Record<Reason, string> = {
  volumeMissing: 'volume missing',
  volumeNegative: 'volume negative',
  meterRunsBackwards: 'meter stop below meter start',
  densityMissing: 'density missing',
  density15Missing: 'density at 15 °C missing for the net volume',
  densityOutsideRange: 'density outside the range of the tables',
  temperatureOutsideRange: 'temperature outside the range of the tables',
  arrivalFuelMissing: 'arrival fuel missing',
  departureFuelMissing: 'departure fuel missing',
  gaugeNegative: 'gauge reading negative',
  groundBurnNegative: 'ground burn negative',
  defuelledNegative: 'defuelled negative',
  temperatureMissing: 'temperature missing',
  meterTemperatureMissing: 'meter temperature missing',
  defaultDensity: 'default density',
  meterRollOver: 'meter rolled over',
  amountOutsideRange: 'an amount beyond what any aircraft takes'
};

export const coreMarkWords: Record<Mark, string> = {
  groundBurnNotRecorded: 'ground burn not recorded',
  groundBurnFromMinutes: 'ground burn from minutes',
  glassCorrected: 'hydrometer glass corrected',
  temperatureShared: 'one temperature for sample and meter',
  netBaseAssumed: 'net volume taken to be at 15 °C',
  certificateDensityUsed: 'certificate density used',
  densityImplausible: 'density unlikely for jet fuel',
  temperatureImplausible: 'temperature unlikely',
  densityLooksLikeDefault: 'density looks like a default',
  meterDisagreesWithVolume: 'meter readings and volume disagree',
  netDisagreesWithGross: 'net and gross volume disagree',
  defuelled: 'defuelled',
  defuelOnly: 'defuel only',
  severalTickets: 'several tickets',
  gaugeFellWhileFuelling: 'gauge fell while fuelling'
};

export const checkStateWords: Record<CheckState, string> = {
  notRecorded: 'not recorded',
  passed: 'passed',
  failed: 'failed',
  notDone: 'not done',
  notRequired: 'not required'
};
