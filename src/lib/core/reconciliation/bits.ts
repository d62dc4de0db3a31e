import {
  bitOf,
  densityMethods,
  indexOf,
  marks,
  orderedBases,
  qualities,
  reasons,
  verdicts
} from './codes.ts';

const reason = (code: (typeof reasons)[number]) => bitOf(reasons, code);
const mark = (code: (typeof marks)[number]) => bitOf(marks, code);

/** The bits of the reasons, looked up once because they are set a million times. */
export const reasonBits = {
  volumeMissing: reason('volumeMissing'),
  volumeNegative: reason('volumeNegative'),
  meterRunsBackwards: reason('meterRunsBackwards'),
  densityMissing: reason('densityMissing'),
  density15Missing: reason('density15Missing'),
  densityOutsideRange: reason('densityOutsideRange'),
  temperatureOutsideRange: reason('temperatureOutsideRange'),
  arrivalFuelMissing: reason('arrivalFuelMissing'),
  departureFuelMissing: reason('departureFuelMissing'),
  gaugeNegative: reason('gaugeNegative'),
  groundBurnNegative: reason('groundBurnNegative'),
  defuelledNegative: reason('defuelledNegative'),
  temperatureMissing: reason('temperatureMissing'),
  meterTemperatureMissing: reason('meterTemperatureMissing'),
  defaultDensity: reason('defaultDensity'),
  meterRollOver: reason('meterRollOver'),
  amountOutsideRange: reason('amountOutsideRange')
} as const;

/** The bits of the marks. */
export const markBits = {
  groundBurnNotRecorded: mark('groundBurnNotRecorded'),
  groundBurnFromMinutes: mark('groundBurnFromMinutes'),
  glassCorrected: mark('glassCorrected'),
  temperatureShared: mark('temperatureShared'),
  netBaseAssumed: mark('netBaseAssumed'),
  certificateDensityUsed: mark('certificateDensityUsed'),
  densityImplausible: mark('densityImplausible'),
  temperatureImplausible: mark('temperatureImplausible'),
  densityLooksLikeDefault: mark('densityLooksLikeDefault'),
  meterDisagreesWithVolume: mark('meterDisagreesWithVolume'),
  netDisagreesWithGross: mark('netDisagreesWithGross'),
  defuelled: mark('defuelled'),
  defuelOnly: mark('defuelOnly'),
  severalTickets: mark('severalTickets'),
  gaugeFellWhileFuelling: mark('gaugeFellWhileFuelling')
} as const;

export const notReconcilable = indexOf(qualities, 'notReconcilable');
export const estimated = indexOf(qualities, 'estimated');
export const measured = indexOf(qualities, 'measured');

export const notJudged = indexOf(verdicts, 'notJudged');
export const within = indexOf(verdicts, 'within');
export const outside = indexOf(verdicts, 'outside');

export const hydrometer = indexOf(densityMethods, 'hydrometer');
export const densitometer = indexOf(densityMethods, 'densitometer');
export const inLine = indexOf(densityMethods, 'inLine');
export const methodNotStated = indexOf(densityMethods, 'notStated');

export const totalOnBoard = indexOf(orderedBases, 'totalOnBoard');
export const amountToAdd = indexOf(orderedBases, 'amountToAdd');
