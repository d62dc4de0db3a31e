import { describe, expect, test } from 'vitest';
import {
  type CauseCode,
  causeCodes,
  type CauseEvidence,
  causeFigures,
  causeOutcomes,
  createCauseEvidence,
  createCauseProposals,
  defaultCauseOptions,
  percentIf,
  proposeCauses
} from '#lib/core/causes/index.ts';
import { densityAt } from '#lib/core/density/index.ts';
import { totalOnBoard } from '#lib/core/reconciliation/index.ts';

/** A refuelling with nothing wrong: 14 850 L at 24 C of 801.2 kg/m3 at 15 C; gauges 3 420 to 15 140 kg, 60 burnt. */
const fine: CauseEvidence = {
  ...createCauseEvidence(),
  meteredMassKg: 11_798.6,
  gaugeUpliftKg: 11_780,
  meteredTyped: 14_850,
  volumeL: 14_850,
  densityAtMeterKgM3: 794.518,
  observedDensityKgM3: 792.3,
  certificateDensity15KgM3: 801.2,
  sampleTemperatureC: 27,
  meterTemperatureC: 24,
  arrivalFuelKg: 3420,
  departureFuelKg: 15_140,
  groundBurnKg: 60,
  gaugeStepKg: 20,
  previousDepartureKg: 11_000,
  capacityKg: 20_000
};

function find(change: Partial<CauseEvidence>) {
  const evidence = { ...fine, ...change };
  const out = createCauseProposals();
  proposeCauses(evidence, defaultCauseOptions, out);
  const code = causeCodes[out.cause];
  return {
    out,
    outcome: causeOutcomes[out.outcome],
    code,
    percent: percentIf(out, out.cause),
    figure: causeFigures[out.figure[out.cause] ?? 0],
    value: out.figureValue[out.cause] ?? NaN
  };
}

/** Metered as if another volume had been typed. */
const typedVolume = (volumeL: number): Partial<CauseEvidence> => ({
  meteredTyped: volumeL,
  volumeL,
  meteredMassKg: (volumeL * fine.densityAtMeterKgM3) / 1000
});

/** Gauges as if others had been typed. */
const typedGauges = (arrivalFuelKg: number, departureFuelKg: number): Partial<CauseEvidence> => ({
  arrivalFuelKg,
  departureFuelKg,
  gaugeUpliftKg: departureFuelKg - arrivalFuelKg + fine.groundBurnKg
});

/** Meter readings of the true volume. */
const read = { meterStartL: 512_300, meterStopL: 527_150 };

test('a record with nothing wrong is left alone', () => {
  expect(find({}).outcome).toBe('nothingWrong');
  expect(find(read).outcome).toBe('nothingWrong');
});

describe('one fault at a time is named and its undoing brings the record within 1 %', () => {
  const litres = 14_850;
  const cases: readonly (readonly [CauseCode, string, Partial<CauseEvidence>])[] = [
    ['poundsAsKilograms', 'both gauges in pounds', { ...typedGauges(7540, 33_378), gaugeUpliftKg: 25_970 }],
    ['kilogramsAsPounds', 'kilograms read as pounds', { ...typedGauges(1551, 6867), gaugeUpliftKg: 5343 }],
    ['usGallonsAsLitres', '14 850 L typed as 3 923', typedVolume(3923)],
    ['litresAsUsGallons', 'litres in a gallon field', typedVolume(litres * 3.785411784)],
    ['imperialGallonsAsLitres', '14 850 L typed as 3 267', typedVolume(3267)],
    ['litresAsImperialGallons', 'litres in an imperial gallon field', typedVolume(litres * 4.54609)],
    ['usGallonsAsKilograms', '3 923 gallons kept as kilograms', { meteredMassKg: 3923, meteredTyped: 3923 }],
    ['cubicMetresAsLitres', '14 850 L typed as 14.85', typedVolume(14.85)],
    ['litresAsCubicMetres', 'the reverse', typedVolume(litres * 1000)],
    ['decimalShift', 'one nought lost', typedVolume(1485)],
    ['decimalShift', 'one nought too many', typedVolume(148_500)],
    ['transposedDigits', 'volume 18 450, meter readings 14 850', { ...typedVolume(18_450), ...read }],
    ['transposedDigits', 'departure 51 140 > capacity', { ...typedGauges(3420, 51_140), ...read }],
    ['singleDigit', 'volume 17 850, meter readings 14 850', { ...typedVolume(17_850), ...read }],
    ['singleDigit', 'departure 18 140, tanks 15 140', { ...typedGauges(3420, 18_140), tanksAfterKg: 15_140 }],
    ['staleArrival', 'arrival 11 000, as at the last departure', typedGauges(11_000, 15_140)],
    [
      'wrongTail',
      'another tail has as much too little',
      { ...typedVolume(9000), otherTailDiscrepancyKg: -4650 }
    ],
    [
      'duplicateTicket',
      'two tickets of one volume',
      {
        meteredMassKg: 23_597,
        tickets: 2,
        meteredTyped: NaN,
        minutesToDuplicate: 3,
        duplicateMassKg: 11_798.6
      }
    ],
    ['ticketMissing', 'a ticket of 5 200 kg nobody has', { ...typedVolume(8300), strayTicketKg: 5200 }],
    [
      'meterNotReset',
      'volume equal to the stop',
      { ...typedVolume(23_150), meterStartL: 8300, meterStopL: 23_150 }
    ],
    [
      'meterNotReset',
      'the start lies before the last stop',
      { ...typedVolume(23_150), meterStartL: 504_000, meterStopL: 527_150, previousMeterStopL: 512_300 }
    ],
    [
      'meterRollOver',
      'stop below start, six digits',
      {
        meteredMassKg: NaN,
        meteredTyped: NaN,
        volumeL: NaN,
        meterStartL: 992_000,
        meterStopL: 6850,
        meterRegisterL: 1e6
      }
    ],
    [
      'meterReadingsSwapped',
      'start and stop the wrong way round',
      { meteredMassKg: NaN, meteredTyped: NaN, volumeL: NaN, meterStartL: 527_150, meterStopL: 512_300 }
    ],
    ['densityUnit', 'kg/L', { meteredMassKg: NaN, densityAtMeterKgM3: NaN, observedDensityKgM3: 0.7923 }],
    ['densityUnit', 'lb/US gal', { meteredMassKg: NaN, densityAtMeterKgM3: NaN, observedDensityKgM3: 6.61 }],
    ['densityUnit', 'degrees API', { meteredMassKg: NaN, densityAtMeterKgM3: NaN, observedDensityKgM3: 45 }],
    [
      'defuelSign',
      '2 000 kg taken off, typed below zero',
      { ...typedGauges(3420, 13_140), gaugeUpliftKg: NaN, defuelledKg: -2000 }
    ],
    ['gaugeReadingsSwapped', 'the wrong way round', typedGauges(15_140, 3420)],
    [
      'netInGross',
      'the net volume in both fields at 40 C',
      {
        ...typedVolume(14_726),
        netVolumeL: 14_726,
        meterTemperatureC: 40,
        sampleTemperatureC: 40,
        observedDensityKgM3: densityAt(801.2, 40, '1980'),
        densityAtMeterKgM3: densityAt(801.2, 40, '1980'),
        meteredMassKg: (14_726 * densityAt(801.2, 40, '1980')) / 1000
      }
    ],
    [
      'density15AsObserved',
      'the certificate density written as observed at 24 C',
      { observedDensityKgM3: 801.2, densityAtMeterKgM3: 803.6, meteredMassKg: 11_933 }
    ],
    [
      'fahrenheitAsCelsius',
      '77 F for 25 C: the density at 15 C would be 837',
      { sampleTemperatureC: 77, observedDensityKgM3: 793.8, densityAtMeterKgM3: 830.6, meteredMassKg: 12_334 }
    ],
    [
      'plannedAsGauge',
      'the order of 14 000 in the gauge field',
      { ...typedGauges(3420, 14_000), orderedKg: 14_000, orderedBasis: totalOnBoard }
    ],
    ['oneTank', 'all on the left', { leftAfterKg: 13_430, rightAfterKg: 1710, imbalanceLimitKg: 1000 }]
  ];

  test.each(cases)('%s: %s', (code, _how, change) => {
    const found = find(change);
    expect([found.outcome, found.code]).toEqual(['named', code]);
    expect(Math.abs(found.percent)).toBeLessThan(1);
  });
});

describe('the figure that would fit', () => {
  test.each([
    ['volume', 14_850, { ...typedVolume(18_450), ...read }],
    ['departureFuel', 15_140, { ...typedGauges(3420, 18_140), tanksAfterKg: 15_140 }],
    ['defuelled', 2000, { ...typedGauges(3420, 13_140), gaugeUpliftKg: NaN, defuelledKg: -2000 }]
  ] as const)('%s %i', (figure, value, change) => {
    const found = find(change);
    expect(found.figure).toBe(figure);
    expect(found.value).toBeCloseTo(value, 6);
  });

  test('an arrival fuel that was copied is worked out from the rest, within the noise', () => {
    const found = find(typedGauges(11_000, 15_140));
    expect(found.figure).toBe('arrivalFuel');
    expect(Math.abs(found.value - 3420)).toBeLessThan(100);
  });

  test('a pound reading is tried in the unit it was typed in', () => {
    const lb = 0.45359237;
    const found = find({
      ...typedGauges(7540 * lb, 37_380 * lb),
      gaugeUnitKg: lb,
      gaugeStepKg: 20 * lb,
      tanksAfterKg: 33_380 * lb
    });
    expect([found.code, found.figure]).toEqual(['singleDigit', 'departureFuel']);
    expect(found.value).toBeCloseTo(33_380, 3);
  });
});

describe('what one sign decides', () => {
  test('a permutation is needed, not a difference divisible by nine: 14 850 for 17 550', () => {
    const found = find({ ...typedVolume(17_550), ...read });
    expect(found.code).not.toBe('transposedDigits');
  });

  test('arrival fuel near the last departure, but not equal, is not stale', () => {
    const found = find({ ...typedGauges(10_980, 15_140) });
    expect(found.out.posterior[causeCodes.indexOf('staleArrival')]).toBe(0);
  });

  test('a gauge that did not move may be frozen: nothing is named', () => {
    const found = find({
      ...typedGauges(11_000, 11_000),
      previousDepartureKg: 11_000,
      groundBurnKg: 0,
      gaugeUpliftKg: 0
    });
    expect(found.outcome).toBe('unknown');
  });

  test('a gauge that moved on the next flight was not frozen: the arrival fuel was copied', () => {
    const flown = { previousDepartureKg: 14_000, groundBurnKg: 0, gaugeUpliftKg: 0, nextArrivalKg: 4200 };
    const found = find({ ...typedGauges(14_000, 14_000), ...flown });
    expect([found.outcome, found.code]).toEqual(['named', 'staleArrival']);
    const stillThere = find({ ...typedGauges(14_000, 14_000), ...flown, nextArrivalKg: 14_000 });
    expect(stillThere.outcome).toBe('unknown');
  });

  test('a gauge that moved by a few steps after a copied arrival fuel is not frozen', () => {
    const found = find({
      ...typedGauges(14_000, 14_060),
      previousDepartureKg: 14_000,
      groundBurnKg: 0,
      gaugeUpliftKg: 60
    });
    expect([found.outcome, found.code]).toEqual(['named', 'staleArrival']);
  });

  test('figures in whole gauge steps speak against pounds, others for them', () => {
    const pounds = causeCodes.indexOf('poundsAsKilograms');
    // 11 798.6 kg metered is 26 011 lb. The step of the type is 20 kg.
    const inSteps = find({ ...typedGauges(7540, 33_500), gaugeUpliftKg: 25_960, groundBurnKg: 0 });
    const odd = find({ ...typedGauges(7541, 33_501), gaugeUpliftKg: 25_960, groundBurnKg: 0 });
    const stepless = find({
      ...typedGauges(7541, 33_501),
      gaugeUpliftKg: 25_960,
      groundBurnKg: 0,
      gaugeStepKg: NaN
    });
    const [least = NaN, middle = NaN, most = NaN] = [inSteps, stepless, odd].map(
      ({ out }) => out.posterior[pounds]
    );
    expect(least).toBeLessThan(middle);
    expect(middle).toBeLessThan(most);
  });

  test('a gauge that hits the order is no planned figure where its step is coarse', () => {
    const found = find({
      ...typedGauges(3420, 14_000),
      orderedKg: 14_000,
      orderedBasis: totalOnBoard,
      gaugeStepKg: 100
    });
    expect(found.outcome).not.toBe('named');
  });

  test('a second ticket of another volume is no duplicate', () => {
    const found = find({ meteredMassKg: 23_597, tickets: 2, meteredTyped: NaN });
    expect(found.out.posterior[causeCodes.indexOf('duplicateTicket')]).toBe(0);
  });

  test('US for imperial gallons and litres for kilograms cannot be told apart at 832.7 kg/m3', () => {
    const found = find({
      densityAtMeterKgM3: 832.67,
      observedDensityKgM3: NaN,
      certificateDensity15KgM3: NaN,
      meteredMassKg: 14_147
    });
    const group = causeCodes.filter((_code, index) => found.out.group[index] === 1);
    expect(found.outcome).toBe('cannotTell');
    expect(group).toEqual(['litresAsKilograms', 'usGallonsAsImperial']);
  });

  test('the default density is proposed only where the field holds it exactly', () => {
    const at = (observedDensityKgM3: number) =>
      find({
        observedDensityKgM3,
        densityAtMeterKgM3: 802.2,
        certificateDensity15KgM3: 821,
        meteredMassKg: 11_500
      });
    const index = causeCodes.indexOf('defaultDensity');
    expect(at(800).out.posterior[index]).toBeGreaterThan(0.5);
    expect(at(800.1).out.posterior[index]).toBe(0);
  });
});
