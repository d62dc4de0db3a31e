/** Sizes, places and days of what is planted; days count from 0 on the first day of the demo. */
export const plan = {
  drift: { tail: 'Q7-KEB', fromDay: 240, percentPer30Days: 0.2 },
  exchange: { vehicle: 'JDUM-R214', fromDay: 301, percent: 0.9 },
  refinery: { farm: 6, station: 'JGAL', fromDay: 402, stepKgM3: 9 },
  hotDays: { station: 'JKES', fromDay: 300, aboveC: 28, share: 0.6 },
  tidyDensity: { station: 'JFEN', densityKgM3: 800, share: 0.94 },
  water: { station: 'JLOM', fromDay: 178, untilDay: 241, count: 8 },
  opening: {
    station: 'JNER',
    fromDay: 395,
    earlyShare: 0.6,
    gallonsUntilDay: 418,
    poundsUntilDay: 500,
    pounds: 11
  },
  paradox: { tail: 'Q7-KEH', noiseFactor: 0.75 },
  small: {
    station: 'JHOS',
    firstDay: 25,
    everyDays: 58,
    percents: [0.6, -1.1, 3.9, -0.4, 1.6, -1.8, 0.3, -4.1, 1]
  },
  unpowered: { station: 'JIVA' },
  probe: { tail: 'Q7-LOC', fromDay: 150, sticksAtKg: 3400, aboveKg: 61_000 },
  copied: { station: 'JBEL', fromDay: 60, fromHour: 22, untilHour: 5, count: 140 },
  pair: { tail: 'Q7-KEM', vehicle: 'JARV-H207', share: 0.96, percent: -0.5 },
  scatter: { tail: 'Q7-KED', fromDay: 282, untilDay: 330, noiseFactor: 1.62, factorAfter: 0.95 },
  blanks: { station: 'JCOD', fromDay: 250, coverageFrom: 0.98, coverageTo: 0.61 },
  files: { twiceMonth: 4, swappedMonth: 14, commaMonth: 16 }
} as const;

/** Chance that a sample check finds something, where nothing is wrong. */
export const ordinaryFailure = 0.0012;
/** Share of sample checks recorded, where nothing is wrong. */
export const ordinaryCoverage = 0.98;
