import { describe, expect, test } from 'vitest';
import {
  type CauseCode,
  causeCodes,
  type CauseEvidence,
  causeOutcomes,
  type CauseProposals,
  createCauseEvidence,
  createCauseProposals,
  defaultCauseOptions,
  discrepancyIf,
  isSuspectedSlip,
  isWild,
  proposeCauses,
  signsOf
} from '#lib/core/causes/index.ts';
import { totalOnBoard } from '#lib/core/reconciliation/index.ts';
import { kilogramsPerPound } from '#lib/core/units/index.ts';

const lb = kilogramsPerPound;

interface Found {
  readonly evidence: CauseEvidence;
  readonly out: CauseProposals;
  readonly outcome: string;
  readonly likeliest: string;
}

function find(known: Partial<CauseEvidence>): Found {
  const evidence = { ...createCauseEvidence(), ...known };
  const out = createCauseProposals();
  proposeCauses(evidence, defaultCauseOptions, out);
  return {
    evidence,
    out,
    outcome: causeOutcomes[out.outcome] ?? '',
    likeliest: causeCodes[out.cause] ?? ''
  };
}

const indexOfCause = (code: CauseCode): number => causeCodes.indexOf(code);

describe('Gimli, 1983 (Board of Inquiry): 4 917 L added, 1.77 lb/L taken as kg/L, 8 703 kg recorded', () => {
  // On board before 7 682 L x 0.803 = 6 169 kg; what gauges would have shown: 4 917 L x 0.803 = 3 948 kg more.
  const gauges = { volumeL: 4917, gaugeUpliftKg: 4917 * 0.803, recordedUpliftKg: 8703, meteredTyped: 4917 };

  test.each([
    ['the density typed as 1.77', { observedDensityKgM3: 1770 }],
    ['the recorded mass taken as metered', { meteredMassKg: 8703, densityAtMeterKgM3: 1770 }]
  ])('is named from %s, and 8 703 would be 3 948', (_way, known) => {
    const { outcome, likeliest, out } = find({ ...gauges, ...known });
    expect([outcome, likeliest]).toEqual(['named', 'litresTimesPoundsPerLitre']);
    expect(out.meteredMassKg[out.cause]).toBeCloseTo(3947.6, 0);
    expect(Math.abs(discrepancyIf(out, out.cause))).toBeLessThan(3);
  });

  test('its record alone is a sign, whatever the discrepancy', () => {
    const { evidence } = find({ ...gauges, meteredMassKg: 4917 * 0.803 });
    expect(signsOf(evidence, defaultCauseOptions)).not.toBe(0);
  });
});

/** Published: what the slip said and what was true. The other fields are not published. */
const singleDigits = [
  ['NASA ASRS 1379064', 37_400, 27_400],
  ['NASA ASRS 530341', 23_100, 20_100]
] as const;

describe.each(singleDigits)('%s: %i lb read for %i lb', (_source, readLb, trueLb) => {
  const slip = { meteredMassKg: readLb * lb, meteredTyped: readLb, gaugeUpliftKg: trueLb * lb };

  test('one wrong digit is the likeliest, not named on the ratio alone, and gives the true figure', () => {
    const { outcome, likeliest, out } = find(slip);
    expect(outcome).not.toBe('named');
    expect(likeliest).toBe('singleDigit');
    expect(out.figureValue[out.cause]).toBe(trueLb);
    expect(discrepancyIf(out, out.cause)).toBeCloseTo(0, 6);
  });

  test('it is named once an independent figure agrees with the true one (figure supposed, not published)', () => {
    const { outcome, likeliest } = find({ ...slip, recordedUpliftKg: trueLb * lb });
    expect([outcome, likeliest]).toEqual(['named', 'singleDigit']);
  });
});

describe('published cases whose cause is none of these', () => {
  const cases: readonly (readonly [string, Partial<CauseEvidence>])[] = [
    [
      'NASA ASRS 332865: 190 imp gal x 1.25 taken as 2 400 lb, true about 1 529 lb: a wrong factor and a lost decimal',
      { meteredMassKg: 2400 * lb, gaugeUpliftKg: 1529 * lb, meteredTyped: 2400, gaugeUnitKg: lb }
    ],
    [
      '9V-SVC 2014 (TSIB): 121.5 t on the counter, gauges 5.5 t to the ordered 86 t',
      {
        meteredMassKg: 121_500,
        gaugeUpliftKg: 80_500,
        arrivalFuelKg: 5500,
        departureFuelKg: 86_000,
        orderedKg: 86_000,
        orderedBasis: totalOnBoard,
        gaugeStepKg: 100
      }
    ],
    [
      'NASA ASRS 809545: 23 500 lb metered, gauges 9 300 to 30 000 lb',
      {
        meteredMassKg: 13_280 * 0.26417205 * 6.7 * lb,
        meteredTyped: 13_280,
        gaugeUpliftKg: 20_700 * lb,
        arrivalFuelKg: 9300 * lb,
        departureFuelKg: 30_000 * lb,
        gaugeUnitKg: lb
      }
    ],
    [
      'NASA ASRS 749778: 2 905 US gal x 6.7, gauges 11 100 to 31 500 lb, water in the tanks',
      {
        meteredMassKg: 19_463.5 * lb,
        meteredTyped: 2905,
        gaugeUpliftKg: 20_400 * lb,
        arrivalFuelKg: 11_100 * lb,
        departureFuelKg: 31_500 * lb,
        nextArrivalKg: 7500 * lb,
        gaugeUnitKg: lb
      }
    ]
  ];

  test.each(cases)('%s: nothing is named and it is no suspected slip', (_case, known) => {
    const { outcome, evidence, out } = find(known);
    expect(outcome).not.toBe('named');
    expect(isSuspectedSlip(evidence, defaultCauseOptions, out)).toBe(false);
  });

  test('9V-SVC is wild, and a meter not reset would need a delivery before of 41 t', () => {
    const sector = {
      meteredMassKg: 121_500,
      gaugeUpliftKg: 80_500,
      volumeL: 151_875,
      densityAtMeterKgM3: 800
    };
    const known = find(sector);
    expect(isWild(known.evidence, defaultCauseOptions)).toBe(true);
    expect(known.out.posterior[indexOfCause('meterNotReset')]).toBe(0);
    const fitting = find({ ...sector, previousVolumeL: 51_250 });
    expect(fitting.out.posterior[indexOfCause('meterNotReset')]).toBeGreaterThan(0.5);
    const other = find({ ...sector, previousVolumeL: 30_000 });
    expect(other.out.posterior[indexOfCause('meterNotReset')]).toBeLessThan(0.01);
  });
});

describe('EI-CBK 2003 (AAIU 2005-014): left 1 166 kg, right 277 kg, limit 550 kg', () => {
  // Not published here: that both sides held 277 kg before, so that 889 kg went in.
  const known = {
    meteredMassKg: 889,
    gaugeUpliftKg: 889,
    arrivalFuelKg: 554,
    departureFuelKg: 1443,
    leftAfterKg: 1166,
    rightAfterKg: 277,
    imbalanceLimitKg: 550,
    noiseKg: 11
  };

  test('the total reconciles, all fuel in one tank is named, and it is no slip', () => {
    const { outcome, likeliest, evidence, out } = find(known);
    expect(isWild(evidence, defaultCauseOptions)).toBe(false);
    expect(signsOf(evidence, defaultCauseOptions)).not.toBe(0);
    expect([outcome, likeliest]).toEqual(['named', 'oneTank']);
    expect(isSuspectedSlip(evidence, defaultCauseOptions, out)).toBe(false);
  });

  test('within the limit nothing is said', () => {
    const { outcome } = find({ ...known, leftAfterKg: 740, rightAfterKg: 703 });
    expect(outcome).toBe('nothingWrong');
  });
});

describe('posterior of a mixture with an unknown class', () => {
  // Six factors at 0.15, unknown 0.10, standard deviation of the log ratio 0.010: posterior = 0.15 f / (0.15 f + 0.10 / 6).
  const options = {
    ...defaultCauseOptions,
    nothingWrongCount: 0.15,
    unknownCount: 0.1,
    priorCounts: {
      ...Object.assign(
        { ...defaultCauseOptions.priorCounts },
        Object.fromEntries(causeCodes.map((code) => [code, 0]))
      ),
      usGallonsAsLitres: 0.15,
      imperialGallonsAsLitres: 0.15,
      poundsAsKilograms: 0.15,
      kilogramsAsPounds: 0.15,
      litresAsUsGallons: 0.15
    }
  };

  test.each([
    [3.81, 'usGallonsAsLitres', 0.9966],
    [2.17, 'poundsAsKilograms', 0.9903],
    [4.5, 'imperialGallonsAsLitres', 0.9953]
  ] as const)('gauge / metered %f: %s at %f', (ratio, code, posterior) => {
    const evidence = {
      ...createCauseEvidence(),
      meteredMassKg: 5000,
      gaugeUpliftKg: 5000 * ratio,
      relativeScatter: 0.01,
      noiseKg: 0
    };
    const out = createCauseProposals();
    proposeCauses(evidence, options, out);
    expect(out.posterior[indexOfCause(code)]).toBeCloseTo(posterior, 4);
    expect(causeOutcomes[out.outcome]).toBe('named');
  });

  test('gauge / metered 0.62: unknown at 1.000', () => {
    const evidence = {
      ...createCauseEvidence(),
      meteredMassKg: 5000,
      gaugeUpliftKg: 3100,
      relativeScatter: 0.01,
      noiseKg: 0
    };
    const out = createCauseProposals();
    proposeCauses(evidence, options, out);
    expect(out.unknown).toBeCloseTo(1, 3);
    expect(causeOutcomes[out.outcome]).toBe('unknown');
  });
});

describe('the gross ratio', () => {
  const anySize = {
    ...defaultCauseOptions,
    slip: { ...defaultCauseOptions.slip, grossFloorKg: 0, grossShareOfCapacity: 0 }
  };

  test.each([
    ['TS-LBB 2005 (ANSV): empty shown as 1 800, 600 kg as 2 750', 600, 950],
    ['9V-SVC 2014 (TSIB)', 121_500, 80_500]
  ])(
    'keeps the gauge fault of %s out of the suspected slips, whatever its size',
    (_source, metered, gauge) => {
      const { evidence, out } = find({ meteredMassKg: metered, gaugeUpliftKg: gauge });
      expect(isSuspectedSlip(evidence, anySize, out)).toBe(false);
    }
  );

  test('lets in what is beyond it', () => {
    const { evidence, out } = find({ meteredMassKg: 600, gaugeUpliftKg: 600 * 2.9 });
    expect(isSuspectedSlip(evidence, anySize, out)).toBe(true);
  });
});
